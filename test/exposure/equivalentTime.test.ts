import { describe, expect, it } from 'vitest';
import { cumulativeEquivalentTime, equivalentTime } from '../../lib/exposure';
import {
  bridgeGaps,
  isothermal,
  join,
  slice,
  type ThermalHistory,
  tempAt,
  thermalHistory,
} from '../../lib/history';
import { GAS_CONSTANT, TemperbookError } from '../../lib/quantity';
import { anyHistory } from '../history/histories';
import { fc } from '../setup/fc';

const clock = { activationEnergyJPerMol: 130_000, referenceC: 177 };

/** The defining integral by Simpson's rule on 2000 parts of every interval: slow, plain, independent. */
function bySimpson(
  { timeS, tempC, gapAfter }: ThermalHistory,
  activationEnergy: number,
  referenceC: number,
): number {
  const gaps = new Set(gapAfter);
  const rate = (tempC: number) =>
    Math.exp((-activationEnergy / GAS_CONSTANT) * (1 / (tempC + 273.15) - 1 / (referenceC + 273.15)));
  let sum = 0;
  for (let i = 1; i < timeS.length; i++) {
    if (gaps.has(i - 1)) continue;
    const n = 2000;
    let part = 0;
    for (let k = 0; k <= n; k++) {
      const weight = k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2;
      part += weight * rate(tempC[i - 1]! + ((tempC[i]! - tempC[i - 1]!) * k) / n);
    }
    sum += (part / (3 * n)) * (timeS[i]! - timeS[i - 1]!);
  }
  return sum;
}

describe('equivalentTime', () => {
  it('is within 5e-6 of the exact integral on any straight-line history, over the whole band of Q', () => {
    fc.assert(
      fc.property(
        anyHistory,
        fc.constantFrom(110_000, 130_000, 145_000),
        (history, activationEnergyJPerMol) => {
          const exact = bySimpson(history, activationEnergyJPerMol, 177);
          const ours = equivalentTime(history, { activationEnergyJPerMol, referenceC: 177 });
          // Simpson's own error for |Δx| up to 70 on 2000 parts: (70/2000)⁴/180 = 8e-9.
          expect(Math.abs(ours - exact)).toBeLessThanOrEqual(5e-6 * exact + 1e-300);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('is within 5e-6 for every size of step around the switch from series to closed form', () => {
    for (const stepK of [1e-9, 1e-6, 0.01, 0.3, 1, 2.7, 3.2, 3.24, 3.26, 3.3, 5, 10, 50])
      for (const startC of [100, 200, 400, 600])
        for (const sign of [1, -1]) {
          const history = thermalHistory([0, 1], [startC, startC + sign * stepK]);
          expect(
            Math.abs(equivalentTime(history, clock) / bySimpson(history, 130_000, 177) - 1),
          ).toBeLessThan(5e-6);
        }
  });

  it('does not drift over a million small steps', () => {
    const n = 1_000_001;
    // Up in small steps, down in ten times larger ones: the rounding of the carried rate cannot cancel.
    const saw = thermalHistory(
      new Float64Array(n).map((_, i) => i),
      new Float64Array(n).map((_, i) => 200 + (i % 11 < 10 ? (i % 11) * 0.3 : 1.5)),
    );
    const period = thermalHistory([...saw.timeS.slice(0, 12)], [...saw.tempC.slice(0, 12)]);
    const perPeriod = bySimpson(period, 130_000, 177);
    const periods = Math.floor((n - 1) / 11);
    const rest = slice(saw, periods * 11, n - 1);
    const expected = perPeriod * periods + bySimpson(rest, 130_000, 177);
    expect(Math.abs(equivalentTime(saw, clock) / expected - 1)).toBeLessThan(5e-6);
  });

  it('counts a soak at the reference temperature at full time', () => {
    expect(equivalentTime(isothermal(177, 3600), clock)).toBeCloseTo(3600, 9);
    expect(equivalentTime(thermalHistory([5], [400]), clock)).toBe(0);
  });

  it('adds up over joined parts, skips gaps, and grows with temperature', () => {
    fc.assert(
      fc.property(anyHistory, anyHistory, fc.double({ min: 0.1, max: 50, noNaN: true }), (a, b, hotterK) => {
        const whole = equivalentTime(join([a, b], 60), clock);
        const parts = equivalentTime(a, clock) + equivalentTime(b, clock);
        expect(Math.abs(whole - parts)).toBeLessThanOrEqual(1e-6 * parts);
        const hotter = thermalHistory(
          a.timeS,
          a.tempC.map((t) => t + hotterK),
          a.gapAfter,
        );
        expect(equivalentTime(hotter, clock)).toBeGreaterThanOrEqual(equivalentTime(a, clock));
        expect(equivalentTime(bridgeGaps(a, 'linear'), clock)).toBeGreaterThanOrEqual(
          equivalentTime(a, clock) * (1 - 1e-6),
        );
      }),
    );
  });

  it('stays finite from absolute zero to beyond any melt', () => {
    const extreme = thermalHistory([0, 1, 2, 3], [-273.1499, 20, 5000, -273.1499]);
    for (const activationEnergyJPerMol of [1e4, 1e6])
      for (const referenceC of [-100, 1000])
        expect(Number.isFinite(equivalentTime(extreme, { activationEnergyJPerMol, referenceC }))).toBe(true);
  });

  it.each([
    [{ activationEnergyJPerMol: 130, referenceC: 177 }],
    [{ activationEnergyJPerMol: Number.NaN, referenceC: 177 }],
    [{ activationEnergyJPerMol: 130_000, referenceC: -300 }],
    [{ activationEnergyJPerMol: 130_000, referenceC: Number.NaN }],
  ])('refuses %o', (bad) => {
    expect(() => equivalentTime(isothermal(200, 1), bad)).toThrow(TemperbookError);
  });
});

describe('cumulativeEquivalentTime', () => {
  it('starts at 0, never falls, stands still in gaps and ends at the equivalent time', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const running = cumulativeEquivalentTime(history, clock);
        expect(running[0]).toBe(0);
        expect(running[running.length - 1]).toBe(equivalentTime(history, clock));
        for (let i = 1; i < running.length; i++) expect(running[i]).toBeGreaterThanOrEqual(running[i - 1]!);
        for (const i of history.gapAfter ?? []) expect(running[i + 1]).toBe(running[i]);
      }),
    );
  });

  it('is the equivalent time of every beginning of the history', () => {
    const history = thermalHistory([0, 10, 20, 40], [20, 300, 250, 100]);
    const running = cumulativeEquivalentTime(history, clock);
    expect(running[2]).toBeCloseTo(equivalentTime(slice(history, 0, 20), clock), 9);
    expect(tempAt(history, 20)).toBe(250);
  });
});
