import { describe, expect, it } from 'vitest';
import { isothermal, repeatPass, shiftTemperature, type ThermalHistory } from '../../lib/history';
import { allowedPeak } from '../../lib/planning';
import { strengthAfter } from '../../lib/strength';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';
import { thinPlate } from '../setup/thinPlate';

describe('allowedPeak', () => {
  const metal = { alloy: '6061', temper: 'T6', allowanceFraction: 0.1, ambientC: 20 };
  const history = thinPlate(20);
  const allowed = allowedPeak(history, metal);
  const topOf = (h: ThermalHistory) => Math.max(...h.tempC);

  it('is the peak at which exactly the allowance is used up', () => {
    const share = (allowed.nominal - 20) / (topOf(history) - 20);
    const scaled = shiftTemperature(history, (tempC) => (share - 1) * (tempC - 20));
    const kept = strengthAfter(scaled, { alloy: '6061', temper: 'T6' }, { draws: 400 }).yieldKeptFraction;
    expect(topOf(scaled)).toBeCloseTo(allowed.nominal, 9);
    // Half of 400 draws: the median lies between two of them.
    expect(kept.nominal).toBeCloseTo(0.9, 3);
    expect(allowed.low).toBeLessThan(allowed.nominal);
    expect(allowed.high).toBeGreaterThan(allowed.nominal);
  });

  it('is lower for a longer job and for a smaller allowance: time counts, not only the peak', () => {
    const pass = { startS: history.timeS[0]!, endS: history.timeS.at(-1)! };
    const twice = repeatPass(history, pass, { ambientC: 20, timeConstantS: 300 });
    expect(allowedPeak(twice, metal).nominal).toBeLessThan(allowed.nominal);
    expect(allowedPeak(isothermal(200, 3600), metal).nominal).toBeLessThan(allowed.nominal);
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.5, noNaN: true }), (allowanceFraction) => {
        const more = allowedPeak(history, { ...metal, allowanceFraction: allowanceFraction + 0.05 });
        expect(allowedPeak(history, { ...metal, allowanceFraction }).nominal).toBeLessThanOrEqual(
          more.nominal + 1e-3,
        );
      }),
      { numRuns: inFull ? 10 : 1, endOnFailure: true },
    );
  }, 120_000);

  it('never allows melting, and refuses metal that is not heated', () => {
    expect(allowedPeak(history, { ...metal, allowanceFraction: 1 }).high).toBeLessThanOrEqual(582);
    expect(() => allowedPeak(isothermal(20, 10), metal)).toThrow(/not heated/);
  });
});
