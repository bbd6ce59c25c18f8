import { describe, expect, it } from 'vitest';
import {
  coolingTimeConstant,
  coverage,
  insertWait,
  repeatPass,
  slice,
  tempAt,
  thermalHistory,
} from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { threePasses } from './histories';

const weld = threePasses();
const air = { ambientC: 20 };
const endS = weld.timeS[weld.timeS.length - 1]!;

/** The same invented part, stepped with the arc times given: what the edits must predict. */
function simulate(arcStartsS: readonly number[], untilS: number): { timeS: number[]; tempC: number[] } {
  const timeS = [0];
  const tempC = [20];
  for (let i = 1; i / 5 <= untilS; i++) {
    const t = i / 5;
    const heating = arcStartsS.some((startS) => t > startS && t <= startS + 20);
    timeS.push(t);
    tempC.push(tempC[i - 1]! + (heating ? 12 : 0) / 5 - (tempC[i - 1]! - 20) / 300 / 5);
  }
  return { timeS, tempC };
}

describe('coolingTimeConstant', () => {
  it('finds the time constant of the part from its trace', () => {
    // Explicit steps of 0.2 s cool by 1 − 0.2/300 each, a true constant of 299.9 s.
    expect(coolingTimeConstant(weld, 360, 20)).toBeCloseTo(299.9, 1);
    expect(coolingTimeConstant(weld, endS, 20)).toBeCloseTo(299.9, 1);
  });

  it('is not misled by noise of half a degree', () => {
    const noisy = thermalHistory(
      weld.timeS,
      weld.tempC.map((t, i) => t + 0.5 * Math.sin(i * 12.9898) * Math.cos(i * 78.233)),
    );
    expect(coolingTimeConstant(noisy, 360, 20)).toBeGreaterThan(285);
    expect(coolingTimeConstant(noisy, 360, 20)).toBeLessThan(315);
  });

  it('says so when the trace does not show it', () => {
    expect(() => coolingTimeConstant(weld, 50, 20)).toThrow(/does not show how fast/);
    expect(() => coolingTimeConstant(weld, 70, 20)).toThrow(TemperbookError);
  });
});

describe('insertWait', () => {
  const waitS = 400;
  const waited = insertWait(weld, { atS: 360, waitS }, air);
  const truth = simulate([60, 360 + waitS, 660 + waitS], endS + waitS);

  it('agrees with the part simulated with the longer wait', () => {
    truth.timeS.forEach((t, i) => {
      // Straight lines over τ/30 err by (T₀ − T_a)/(8 · 30²) = 0.02 K, the fitted τ by as much again.
      expect(Math.abs(tempAt(waited, t) - truth.tempC[i]!)).toBeLessThan(0.05);
    });
  });

  it('lengthens the history by the wait, records it all and changes nothing before it', () => {
    expect(coverage(waited).coveredS).toBeCloseTo(coverage(weld).coveredS + waitS, 9);
    expect(slice(waited, 0, 360)).toEqual(slice(weld, 0, 360));
  });

  it('never heats what follows', () => {
    for (let t = 360; t <= endS; t += 1) expect(tempAt(waited, t + waitS)).toBeLessThan(tempAt(weld, t));
  });

  it('lets the part cool on at the end of the log, for two weeks if need be', () => {
    const rested = insertWait(weld, { atS: endS, waitS: 14 * 86_400 }, air);
    expect(rested.tempC[rested.tempC.length - 1]).toBeCloseTo(20, 6);
    expect(rested.timeS[rested.timeS.length - 1]).toBeCloseTo(endS + 14 * 86_400, 6);
  });

  it('takes a given time constant, and refuses bad places', () => {
    const fast = insertWait(weld, { atS: 360, waitS }, { ambientC: 20, timeConstantS: 10 });
    expect(tempAt(fast, 360 + waitS)).toBeCloseTo(20, 6);
    const gappy = thermalHistory(weld.timeS, weld.tempC, [1799]);
    expect(() => insertWait(gappy, { atS: 359.9, waitS }, air)).toThrow(/cannot start in a gap/);
    expect(() => insertWait(weld, { atS: endS + 1, waitS }, air)).toThrow(TemperbookError);
    expect(() => insertWait(weld, { atS: 360, waitS: 0 }, air)).toThrow(TemperbookError);
    expect(() => insertWait(weld, { atS: 360, waitS }, { ambientC: 20, timeConstantS: -1 })).toThrow(
      TemperbookError,
    );
  });
});

describe('repeatPass', () => {
  const pass = { startS: 360, endS: 660 };

  it('agrees with the part simulated with one more pass', () => {
    const repaired = repeatPass(weld, pass, air);
    const truth = simulate([60, 360, 660, endS], endS + 300);
    truth.timeS.forEach((t, i) => {
      expect(Math.abs(tempAt(repaired, t) - truth.tempC[i]!)).toBeLessThan(0.05);
    });
  });

  it('follows a wait: let the part cool, then repair', () => {
    const rested = insertWait(weld, { atS: endS, waitS: 600 }, air);
    const repaired = repeatPass(rested, pass, air);
    const truth = simulate([60, 360, 660, endS + 600], endS + 900);
    expect(Math.max(...slice(repaired, endS + 600, endS + 900).tempC)).toBeCloseTo(
      Math.max(...truth.tempC.slice(-1500)),
      1,
    );
  });

  it('refuses a pass outside the history', () => {
    expect(() => repeatPass(weld, { startS: 660, endS: 5000 }, air)).toThrow(TemperbookError);
    expect(() => repeatPass(weld, { startS: 660, endS: 360 }, air)).toThrow(TemperbookError);
  });
});
