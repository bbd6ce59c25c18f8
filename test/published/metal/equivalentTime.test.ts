import { describe, expect, it } from 'vitest';
import published from '../../../data/published/arrhenius-equivalent-time.json';
import { equivalentTime } from '../../../lib/exposure';
import {
  isothermal,
  resample,
  scheduleHistory,
  shiftTemperature,
  type ThermalHistory,
} from '../../../lib/history';
import { celsiusToKelvin, fahrenheitToCelsius, GAS_CONSTANT } from '../../../lib/quantity';

const Q = 130_000;
const at177 = { activationEnergyJPerMol: Q, referenceC: 177 };
/** The published numbers were worked out with R = 8.314; this Q gives the same Q/R with the CODATA value. */
const asPublished = { activationEnergyJPerMol: (Q * GAS_CONSTANT) / 8.314, referenceC: 177 };

/** 20 to 300 °C at 5 °C/s, 30 s, down at 1 °C/s: four samples, so the integral between them is put to the test. */
const ramp = scheduleHistory([
  { tempC: 300, holdS: 30, rateKPerS: 5 },
  { tempC: 20, holdS: 0, rateKPerS: 1 },
]);

/** Relative difference that R = 8.314 instead of 8.314463 makes at one temperature: the exponent's share. */
const shareOfR = (tempC: number, referenceC: number) =>
  (GAS_CONSTANT / 8.314 - 1) *
  Math.abs((Q / GAS_CONSTANT) * (1 / celsiusToKelvin(tempC) - 1 / celsiusToKelvin(referenceC)));

describe('Arrhenius worked examples, Q = 130 kJ/mol', () => {
  it.each(published.timeFactor.rows)('time factor at %f °C is %f', (tempC, factor) => {
    const digits = factor! < 1 ? 4 : factor! < 10 ? 3 : factor! < 100 ? 2 : 1;
    expect(equivalentTime(isothermal(tempC!, 1), asPublished)).toBeCloseTo(factor!, digits);
    const here = equivalentTime(isothermal(tempC!, 1), at177);
    expect(Math.abs(here / factor! - 1)).toBeLessThan(
      shareOfR(tempC!, 177) + (0.5 * 10 ** -digits) / factor!,
    );
  });

  it.each(published.doubling.rows)(
    'at %f °C the rate doubles every %f °C, at its local slope',
    (atC, riseC) => {
      const rate = (tempC: number) => equivalentTime(isothermal(tempC, 1), at177);
      const slopePerK = Math.log(rate(atC! + 0.01) / rate(atC! - 0.01)) / 0.02;
      expect(Math.LN2 / slopePerK).toBeCloseTo(riseC!, 1);
      // The slope eases as it gets hotter: a real doubling takes a little more.
      expect(rate(atC! + riseC!)).toBeLessThan(2 * rate(atC!));
      expect(rate(atC! + 1.03 * riseC!)).toBeGreaterThan(2 * rate(atC!));
    },
  );

  it('60 s at 260 °C, 600 s at 227 °C and 3600 s at 200 °C are 52 198 s at 177 °C', () => {
    const parts = published.soaks.rows.map(([tempC, durationS]) =>
      equivalentTime(isothermal(tempC!, durationS!), asPublished),
    );
    parts.forEach((part, k) => {
      expect(Math.abs(part - published.soaks.rows[k]![2]!)).toBeLessThan(0.5);
    });
    expect(Math.abs(parts.reduce((a, b) => a + b, 0) - 52_198)).toBeLessThan(1);
  });

  it.each(published.ramp.rows)('the ramp is worth a soak at %f °C of %f s', (referenceC, equivalentS) => {
    // Print rounding and 5e-6 of our integral; with R of CODATA its exponent's share at the 300 °C peak.
    const printed = equivalentS! > 1e4 ? 0.5 : 0.05;
    const sameR = equivalentTime(ramp, { ...asPublished, referenceC: referenceC! });
    expect(Math.abs(sameR - equivalentS!)).toBeLessThan(printed + 5e-6 * equivalentS!);
    const here = equivalentTime(ramp, { activationEnergyJPerMol: Q, referenceC: referenceC! });
    expect(Math.abs(here / equivalentS! - 1)).toBeLessThan(shareOfR(300, referenceC!) + 1e-5);
  });

  it.each(published.reheatLimits6061T6.rows)(
    '6061-T6 reheat limit %f °F for %f h is %f h at 177 °C',
    (tempF, hours, dose) => {
      const rounded = Math.round(fahrenheitToCelsius(tempF!) * 10) / 10;
      expect(equivalentTime(isothermal(rounded, hours!), at177)).toBeCloseTo(dose!, 2);
      // The temperatures themselves: 0.05 °C of rounding is Q/(R T²) · 0.05 = 0.37 % at 190 °C.
      expect(
        Math.abs(equivalentTime(isothermal(fahrenheitToCelsius(tempF!), hours!), at177) / dose! - 1),
      ).toBeLessThan(0.005);
    },
  );
});

describe('the sampled ramp', () => {
  const exact = equivalentTime(ramp, at177);
  /** A logger that starts anywhere within its interval: its readings of the ramp, worst case over the phase. */
  const phases = Array.from({ length: 20 }, (_, k) => k / 20);
  const sampled = (intervalS: number, phase: number): ThermalHistory =>
    resample(
      scheduleHistory([
        { tempC: 20, holdS: phase * intervalS + 1e-3 },
        { tempC: 300, holdS: 30, rateKPerS: 5 },
        { tempC: 20, holdS: intervalS, rateKPerS: 1 },
      ]),
      intervalS,
    );

  it.each(published.sampling.rows)(
    'every %f s: low, and by no more than published for straight temperatures',
    (intervalS, _, low) => {
      const worst = Math.min(
        ...phases.map((phase) => equivalentTime(sampled(intervalS!, phase), at177) / exact - 1),
      );
      expect(worst).toBeLessThan(0);
      expect(-worst).toBeLessThanOrEqual(low! + 0.005);
    },
  );

  it('a reading 25 °C low at 220 °C is a factor 5 in time (published: factor 5 equals about 25 °C)', () => {
    const soak = isothermal(220, 3600);
    const ratio = equivalentTime(shiftTemperature(soak, 25), at177) / equivalentTime(soak, at177);
    expect(ratio).toBeGreaterThan(4.5);
    expect(ratio).toBeLessThan(5.5);
  });
});
