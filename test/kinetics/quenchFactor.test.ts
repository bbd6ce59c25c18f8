import { describe, expect, it } from 'vitest';
import { isothermal, thermalHistory } from '../../lib/history';
import { quenchedFraction, quenchFactor } from '../../lib/kinetics';
import { fc } from '../setup/fc';

const linear = (rateKPerS: number) => thermalHistory([0, 500 / rateKPerS], [520, 20]);

describe('quenchFactor', () => {
  it('is inversely proportional to the cooling rate and needs no fine sampling', () => {
    expect(quenchFactor(linear(10), '6061').quenchFactor).toBeCloseTo(
      2 * quenchFactor(linear(20), '6061').quenchFactor,
      9,
    );
    const times = Array.from({ length: 501 }, (_, k) => k / 20);
    const fine = thermalHistory(
      times,
      times.map((t) => 520 - 20 * t),
    );
    expect(quenchFactor(fine, '6061').quenchFactor).toBeCloseTo(
      quenchFactor(linear(20), '6061').quenchFactor,
      6,
    );
  });

  it('grows with every stop on the way down', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 160, max: 420, noNaN: true }),
        fc.double({ min: 0.01, max: 60, noNaN: true }),
        (tempC, stopS) => {
          const at = (520 - tempC) / 50;
          const stopped = thermalHistory([0, at, at + stopS, 10 + stopS], [520, tempC, tempC, 20]);
          expect(quenchFactor(stopped, '6061').quenchFactor).toBeGreaterThan(
            quenchFactor(linear(50), '6061').quenchFactor,
          );
        },
      ),
    );
  });

  it('flags a ratio below 0.85, unless a least strength is given', () => {
    expect(quenchFactor(linear(20), '6061').remarks).toEqual([]);
    expect(quenchFactor(linear(1), '6061').remarks).toHaveLength(1);
    const improved = quenchFactor(linear(1), '6061', { leastFraction: 0.5, exponent: 0.5 });
    expect(improved.remarks).toEqual([]);
    expect(improved.strengthFraction).toBeGreaterThan(0.5);
  });

  it('refuses a card without a C-curve and a cooling that does not cover the range', () => {
    expect(() => quenchFactor(linear(20), 'A356.0')).toThrow(/no quench constants.*do not transfer/);
    expect(() => quenchFactor(thermalHistory([0, 10], [400, 20]), '6061')).toThrow(/from 425 °C or hotter/);
    expect(() => quenchFactor(isothermal(520, 5), '6061')).toThrow(/to 150 °C or colder/);
  });
});

describe('quenchedFraction', () => {
  it('loses half a percent at τ = 1 and ends at the least strength', () => {
    expect(quenchedFraction(0)).toBe(1);
    expect(quenchedFraction(1)).toBeCloseTo(0.995, 12);
    expect(quenchedFraction(1e6, { leastFraction: 0.4 })).toBeCloseTo(0.4, 12);
    expect(quenchedFraction(2, { exponent: 0.5 })).toBeCloseTo(0.995, 12);
  });

  it('refuses what is no quench factor', () => {
    expect(() => quenchedFraction(-1)).toThrow(/quench factor/);
    expect(() => quenchedFraction(1, { leastFraction: 1.5 })).toThrow(/least strength/);
  });
});

describe('an unrecorded quench', () => {
  it('is refused where it counts, and does not matter outside', () => {
    const lost = thermalHistory([0, 1, 60, 61], [525, 430, 140, 100], [1]);
    expect(() => quenchFactor(lost, '6061')).toThrow(/nothing between 430 °C \(806 °F\) and 140 °C/);
    const whole = thermalHistory([0, 10, 20], [520, 120, 20]);
    const cold = thermalHistory([0, 10, 20], [520, 120, 20], [1]);
    expect(quenchFactor(cold, '6061').quenchFactor).toBe(quenchFactor(whole, '6061').quenchFactor);
  });
});
