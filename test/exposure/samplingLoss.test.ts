import { describe, expect, it } from 'vitest';
import { samplingLoss } from '../../lib/exposure';
import { isothermal, resample, thermalHistory } from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { seededRandom } from '../../lib/statistics';
import { anyHistory } from '../history/histories';
import { fc } from '../setup/fc';

const Q = 130_000;
/** 350 − 20 t² around its top, °C: a curvature of −40 K/s². */
const parabola = (intervalS: number, phase: number) => {
  const times = Array.from({ length: 9 }, (_, i) => (i - 4 + phase) * intervalS);
  return thermalHistory(
    times,
    times.map((t) => 350 - 20 * t * t),
  );
};

describe('samplingLoss', () => {
  it('finds the vertex of a parabola at any phase and bounds it by |T″|(Δt/2)²/2', () => {
    for (const phase of [-0.5, -0.3, 0, 0.2, 0.5]) {
      const { missedPeakK, tooSlow } = samplingLoss(parabola(0.5, phase), Q);
      expect(missedPeakK.nominal).toBeCloseTo(20 * (phase * 0.5) ** 2, 9);
      expect(missedPeakK.high).toBeCloseTo(1.25, 9);
      expect(missedPeakK.low).toBe(0);
      expect(tooSlow).toBe(false);
    }
  });

  it('bounds a corner, 12 K/s up and 5 K/s down, at any phase', () => {
    const corner = (t: number): number => 300 + (t < 0 ? 12 * t : -5 * t);
    for (const phase of [-0.5, -0.3, -0.1, 0, 0.2, 0.4]) {
      const times = Array.from({ length: 9 }, (_, i) => (i - 4 + phase) * 2);
      const { missedPeakK } = samplingLoss(thermalHistory(times, times.map(corner)), Q);
      // The corner is looked for at 16 points of the interval: between two of them it is at most 12 K/s · 2 s/16 higher.
      expect(missedPeakK.high).toBeGreaterThanOrEqual(300 - Math.max(...times.map(corner)) - (12 * 2) / 16);
    }
  });

  it('finds nothing missing where the trace is straight', () => {
    const { missedPeakK, missedExposureFraction, tooSlow } = samplingLoss(isothermal(200, 3600), Q);
    expect([missedPeakK.high, missedExposureFraction.high, tooSlow]).toEqual([0, 0, false]);
  });

  it('says so where the hottest reading lies at an end or beside a gap', () => {
    expect(samplingLoss(thermalHistory([0, 1, 2], [100, 200, 300]), Q).missedPeakK.because[0]).toMatch(
      /end of the trace/,
    );
    const gap = samplingLoss(thermalHistory([0, 1, 2, 9, 10], [100, 200, 300, 290, 280], [2]), Q);
    expect(gap.missedPeakK.because[0]).toMatch(/beside a gap/);
  });

  it('calls a logger too slow that catches one reading of a pass', () => {
    const { tooSlow, missedExposureFraction } = samplingLoss(
      thermalHistory([0, 5, 10, 15], [100, 150, 520, 250]),
      Q,
    );
    expect(tooSlow).toBe(true);
    expect(missedExposureFraction.because.join()).toMatch(/too slow/);
  });

  it('takes noise for little: a third of its deviation at the peak', () => {
    const random = seededRandom(5);
    const timeS = Float64Array.from({ length: 2000 }, (_, i) => i);
    const noisy = thermalHistory(
      timeS,
      timeS.map(() => 300 + 0.5 * random.normal()),
    );
    const { missedPeakK, missedExposureFraction } = samplingLoss(noisy, Q);
    // The hottest of 2000 is some 3.3 deviations up with ordinary neighbours: a bend of 2 · 3.3 + 1 deviations.
    expect(missedPeakK.high).toBeLessThan((8 * 0.5) / 8);
    expect(missedExposureFraction.nominal).toBeLessThan(0.002);
  });

  it('agrees with reading the same curve ten times as often', () => {
    const fine = thermalHistory(
      Float64Array.from({ length: 4001 }, (_, i) => i / 20),
      Float64Array.from({ length: 4001 }, (_, i) => 60 + 330 * Math.exp(-(((i / 20 - 60) / 9) ** 2))),
    );
    const slow = samplingLoss(resample(fine, 2), Q);
    const fast = samplingLoss(resample(fine, 0.2), Q);
    // The loss falls with the square of the interval: a hundredfold.
    expect(slow.missedExposureFraction.nominal / fast.missedExposureFraction.nominal).toBeGreaterThan(90);
    expect(slow.missedExposureFraction.nominal / fast.missedExposureFraction.nominal).toBeLessThan(110);
  });

  it('gives finite, ordered numbers for any history', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        const { missedPeakK, missedExposureFraction } = samplingLoss(history, Q);
        for (const { low, nominal, high } of [missedPeakK, missedExposureFraction]) {
          expect(low).toBeGreaterThanOrEqual(0);
          expect(nominal).toBeGreaterThanOrEqual(low);
          expect(high).toBeGreaterThanOrEqual(nominal);
          expect(high).toBeLessThan(Number.POSITIVE_INFINITY);
        }
      }),
    );
  });

  it('refuses an activation energy in kJ/mol', () => {
    expect(() => samplingLoss(isothermal(200, 1), 130)).toThrow(TemperbookError);
  });
});
