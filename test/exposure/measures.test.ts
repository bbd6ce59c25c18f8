import { describe, expect, it } from 'vitest';
import { coolingRate, heatingRate, peak, timeAbove } from '../../lib/exposure';
import { coverage, isothermal, shiftTemperature, thermalHistory } from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { seededRandom } from '../../lib/statistics';
import { anyHistory } from '../history/histories';
import { fc } from '../setup/fc';

describe('peak', () => {
  it('is the first of the hottest samples', () => {
    expect(peak(thermalHistory([0, 1, 2, 3], [20, 310, 310, 20]))).toEqual({ tempC: 310, timeS: 1 });
  });
});

describe('timeAbove', () => {
  it('takes the crossings on the straight lines', () => {
    const triangle = thermalHistory([0, 10, 20], [20, 420, 20]);
    expect(timeAbove(triangle, 220)).toBeCloseTo(10, 12);
    expect(timeAbove(triangle, 420)).toBe(0);
    expect(timeAbove(triangle, 0)).toBe(20);
  });

  it('does not count a hold at the limit, nor a gap', () => {
    expect(timeAbove(isothermal(227, 60), 227)).toBe(0);
    const gappy = thermalHistory([0, 10, 100, 110], [300, 300, 300, 300], [1]);
    expect(timeAbove(gappy, 227)).toBe(20);
  });

  it('splits the covered time with the time below', () => {
    fc.assert(
      fc.property(anyHistory, fc.double({ min: -40, max: 640, noNaN: true }), (history, limitC) => {
        // A hold exactly at the limit is neither above nor below it, and the mirror rounds to 1e-13.
        fc.pre(!history.tempC.some((t) => Math.abs(t - limitC) < 1e-6));
        const mirrored = shiftTemperature(history, (t) => 700 - 2 * t);
        expect(timeAbove(history, limitC) + timeAbove(mirrored, 700 - limitC)).toBeCloseTo(
          coverage(history).coveredS,
          6,
        );
      }),
    );
  });

  it('falls as the limit rises', () => {
    fc.assert(
      fc.property(anyHistory, fc.double({ min: 0, max: 600, noNaN: true }), (history, limitC) => {
        expect(timeAbove(history, limitC + 10)).toBeLessThanOrEqual(timeAbove(history, limitC) + 1e-9);
      }),
    );
  });

  it('refuses a limit that is not a number', () => {
    expect(() => timeAbove(isothermal(20, 1), Number.NaN)).toThrow(TemperbookError);
  });
});

describe('heatingRate and coolingRate', () => {
  const pass = thermalHistory([0, 10, 14, 24, 124], [20, 60, 400, 400, 100]);

  it('give the steepest slope, each its own way, positive', () => {
    expect(heatingRate(pass)).toBeCloseTo(85, 9);
    expect(coolingRate(pass)).toBeCloseTo(3, 9);
    expect(coolingRate(thermalHistory([0, 10], [20, 400]))).toBe(0);
  });

  it('average over a longer window', () => {
    expect(heatingRate(pass, 8)).toBeCloseTo((400 - 44) / 8, 9);
    expect(heatingRate(pass, 1e6)).toBeCloseTo(80 / 124, 9);
  });

  it('do not look across a gap, and take a short stretch whole', () => {
    const gappy = thermalHistory([0, 1, 2, 3], [20, 30, 400, 390], [1]);
    expect(heatingRate(gappy)).toBeCloseTo(10, 9);
    expect(heatingRate(gappy, 5)).toBeCloseTo(10, 9);
    expect(coolingRate(gappy)).toBeCloseTo(10, 9);
  });

  it('are hardly moved by noise: of n readings, by under √(2 ln n) √2 σ/window', () => {
    const random = seededRandom(11);
    const timeS = Float64Array.from({ length: 3000 }, (_, i) => i / 10);
    const tempC = timeS.map((t) => 20 + 2 * t + 0.5 * random.normal());
    expect(heatingRate(thermalHistory(timeS, tempC), 5)).toBeLessThan(
      2 + (Math.sqrt(2 * Math.log(3000)) * Math.SQRT2 * 0.5) / 5,
    );
    expect(heatingRate(thermalHistory(timeS, tempC), 5)).toBeGreaterThan(2);
  });

  it('are the greatest slope of the straight lines for a window shorter than any interval', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const gaps = new Set(history.gapAfter);
        let steepest = 0;
        for (let i = 1; i < history.timeS.length; i++)
          if (!gaps.has(i - 1))
            steepest = Math.max(
              steepest,
              (history.tempC[i]! - history.tempC[i - 1]!) / (history.timeS[i]! - history.timeS[i - 1]!),
            );
        expect(heatingRate(history, 0.005)).toBeCloseTo(steepest, 4);
      }),
    );
  });

  it('refuse a window that is no length of time', () => {
    expect(() => heatingRate(pass, 0)).toThrow(TemperbookError);
    expect(() => coolingRate(pass, Number.NaN)).toThrow(TemperbookError);
  });
});
