import { describe, expect, it } from 'vitest';
import response from '../../../data/published/thermocouple-response.json';
import tolerances from '../../../data/published/thermocouple-tolerances.json';
import { thermalHistory } from '../../../lib/history';
import {
  conductionErrorFraction,
  correctLag,
  lagNoiseGain,
  type ThermocoupleType,
  type ToleranceStandard,
  toleranceC,
  typeKDriftC,
  type WireClass,
} from '../../../lib/thermocouple';

describe('tolerances of IEC 60584-1 and ASTM E230', () => {
  it.each(
    tolerances.workedExamples.rows.map(
      (row) => row as [ToleranceStandard, WireClass, ThermocoupleType, number, number | null],
    ),
  )('%s class %s, type %s at %f °C: ± %f °C', (standard, wireClass, type, tempC, expected) => {
    const tolerance = toleranceC(standard, wireClass, type, tempC);
    if (expected === null) expect(tolerance).toBeNull();
    else expect(tolerance).toBeCloseTo(expected, 12);
  });

  it.each(
    tolerances.breakpoints.rows.map((row) => row as [ToleranceStandard, WireClass, ThermocoupleType, number]),
  )('%s class %s, type %s starts to grow at %f °C', (standard, wireClass, type, tempC) => {
    const away = Math.sign(tempC);
    const flat = toleranceC(standard, wireClass, type, 20)!;
    expect(toleranceC(standard, wireClass, type, tempC - away)).toBe(flat);
    expect(toleranceC(standard, wireClass, type, tempC + away)).toBeGreaterThan(flat);
  });
});

describe('short-range ordering of type K', () => {
  it.each(tolerances.typeKOrdering.rows)('%f min at 350 °C: +%f °C', (minutes, errorC) => {
    // One power law through three points printed to 0.1 °C; it leaves 0.08 °C at the middle one.
    expect(Math.abs(typeKDriftC(350, minutes! * 60) - errorC!)).toBeLessThan(0.1);
  });
});

/** A lagging sensor's reading of a signal, worked out in closed form by the caller. */
const sampled = (reading: (t: number) => number, intervalS: number, fromS: number, toS: number) => {
  const timeS = Float64Array.from(
    { length: Math.round((toS - fromS) / intervalS) + 1 },
    (_, i) => fromS + i * intervalS,
  );
  return thermalHistory(timeS, timeS.map(reading));
};

describe('first-order lag', () => {
  it.each(response.step.rows)(
    'step of the worked example, from %f by %f K',
    (startC, stepK, tauS, timeS, readC) => {
      const reading = (t: number) => startC! + stepK! * (1 - Math.exp(-t / tauS!));
      expect(reading(timeS!)).toBeCloseTo(readC!, 3);
      const { history } = correctLag(sampled(reading, 0.02, 0, 2), { timeConstantS: tauS!, halfWindow: 8 });
      const i = Math.round(timeS! / 0.02);
      // The least-squares slope of e^(−t/τ) over ±0.16 s is high by (0.16/0.4)²/10 = 1.6 %, of the 147 K lag.
      expect(Math.abs(history.tempC[i]! - (startC! + stepK!))).toBeLessThan(
        0.02 * (startC! + stepK! - readC!),
      );
    },
  );

  it.each(response.ramp.rows)('ramp of %f K/s, τ %f s: low by %f K', (rateKPerS, tauS, lagK) => {
    const reading = (t: number) => 20 + rateKPerS! * (t - tauS! * (1 - Math.exp(-t / tauS!)));
    const raw = sampled(reading, 0.1, 0, 8);
    const { history } = correctLag(raw, { timeConstantS: tauS! });
    const i = 60;
    expect(20 + rateKPerS! * raw.timeS[i]! - raw.tempC[i]!).toBeCloseTo(lagK!, 4);
    expect(history.tempC[i]).toBeCloseTo(20 + rateKPerS! * raw.timeS[i]!, 3);
  });

  it.each(response.sine.rows)(
    'sine of period %f s, τ %f s: %f of its amplitude, %f° late',
    (periodS, tauS, ratio, phase) => {
      const w = (2 * Math.PI) / periodS!;
      const reading = (t: number) => 200 + 100 * ratio! * Math.sin(w * t - (phase! * Math.PI) / 180);
      const { history } = correctLag(sampled(reading, 0.05, 0, 12), { timeConstantS: tauS!, halfWindow: 3 });
      // The slope over ±0.15 s is low by (w · 0.15)²/10 = 0.6 % of τ w times the amplitude, 0.35 K; print rounding 0.02 K.
      for (let i = 20; i < 200; i++)
        expect(Math.abs(history.tempC[i]! - (200 + 100 * Math.sin(w * history.timeS[i]!)))).toBeLessThan(0.5);
    },
  );

  it.each(response.noiseGain.rows)(
    'scatter with τ %f s every %f s grows %f times by plain differences',
    (tauS, intervalS, gain) => {
      expect(lagNoiseGain(tauS!, intervalS!, 1)).toBeCloseTo(gain!, 3);
    },
  );
});

describe('heat drawn along the leads', () => {
  const conductivityWPerMK: Record<string, number> = { KP: 19, KN: 29.5 };

  it.each(response.weldedWireOn6061.rows.map((row) => row as [number, number, string, number]))(
    '%f mm wire, %f W/m² K, %s: %f %% low',
    (diameterMm, lossWPerM2K, leg, percent) => {
      const fraction = conductionErrorFraction({
        diameterMm,
        lossWPerM2K,
        conductivityWPerMK: conductivityWPerMK[leg]!,
        bodyConductivityWPerMK: 167,
      });
      expect(Math.abs(100 * fraction - percent)).toBeLessThan(0.00051);
    },
  );

  it('clamped sheaths: one loss taken from the first row gives the other three', () => {
    const rows = response.clampedSheath.rows as [number, number, number, number][];
    // 15 W/m K of a stainless sheath; 8.75 W/m² K then gives the 19 % of the first row.
    const percent = ([diameterMm, areaMm2, conductanceWPerM2K]: readonly number[]) =>
      100 *
      conductionErrorFraction({
        diameterMm: diameterMm!,
        conductivityWPerMK: 15,
        lossWPerM2K: 8.75,
        bodyConductivityWPerMK: 167,
        contact: { areaMm2: areaMm2!, conductanceWPerM2K: conductanceWPerM2K! },
      });
    for (const row of rows) expect(Math.abs(percent(row) - row[3])).toBeLessThan(0.5);
  });
});
