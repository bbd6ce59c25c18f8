import { describe, expect, it } from 'vitest';
import published from '../../../data/published/logger-sampling.json';
import {
  coolingRate,
  equivalentTime,
  heatingRate,
  peak,
  samplingLoss,
  timeAbove,
} from '../../../lib/exposure';
import {
  isothermal,
  shiftTemperature,
  slice,
  type ThermalHistory,
  tempAt,
  thermalHistory,
} from '../../../lib/history';
import { besideMovingSource } from '../../setup/besideMovingSource';

const { scenarios, rows } = published.movingLineSource;

function readEvery(
  curve: (t: number) => number,
  intervalS: number,
  fromS: number,
  toS: number,
): ThermalHistory {
  const count = Math.floor((toS - fromS) / intervalS) + 1;
  const timeS = Float64Array.from({ length: count }, (_, i) => fromS + i * intervalS);
  return thermalHistory(timeS, timeS.map(curve));
}

const cases = rows.map((row) => {
  const [label, , , thickness] = scenarios[row[0]!]!;
  const fine = readEvery(besideMovingSource(row), 0.01, -40, 80);
  return { name: `${label} ${thickness} mm, ${row[1]} mm beside`, row, fine, top: peak(fine) };
});

describe('thermal cycles of a moving line source', () => {
  it.each(cases)('$name: peak, rates, time near the peak', ({ row, fine, top }) => {
    const [, , peakC, heating, cooling, , nearPeakS] = row;
    expect(top.tempC).toBeCloseTo(peakC!, 1);
    // Rates over 0.05 s are as good as slopes; printed to 0.1 K/s.
    expect(heatingRate(fine, 0.05)).toBeCloseTo(heating!, heating! > 100 ? 0 : 1);
    expect(coolingRate(fine, 0.05)).toBeCloseTo(cooling!, 1);
    expect(Math.abs(timeAbove(fine, top.tempC - 20) - nearPeakS!)).toBeLessThan(0.01);
  });

  it.each(cases)('$name: the worst missed peak, and our bound from the slow trace itself', ({ row, top }) => {
    const curve = besideMovingSource(row);
    [0.1, 0.5, 1, 2, 5].forEach((intervalS, k) => {
      let worst = 0;
      for (let phase = 0; phase < 1; phase += 0.05) {
        const firstS = top.timeS - (Math.ceil(30 / intervalS) - phase) * intervalS;
        const slow = readEvery(curve, intervalS, firstS, top.timeS + 40);
        const missed = top.tempC - peak(slow).tempC;
        const { missedPeakK, tooSlow } = samplingLoss(slow, 130_000);
        worst = Math.max(worst, missed);
        // Where the logger is fast enough by its own account the bound holds; the peak is known to 1e-4 K.
        if (!tooSlow) expect(missed).toBeLessThan(missedPeakK.high + 1e-3);
        // And the account is honest: whenever 40 K or more are missed, it says too slow.
        if (missed > 40) expect(tooSlow).toBe(true);
      }
      // Twenty phases find the worst within a few per cent of it (the printed values took more).
      const printed = row[7 + k]!;
      expect(Math.abs(worst - printed)).toBeLessThan(0.06 + 0.08 * printed);
      // T″(Δt/2)²/2 with the printed curvature is above it, as long as the peak is a parabola that far out.
      if (printed < 5) expect((-row[5]! * (intervalS / 2) ** 2) / 2).toBeGreaterThan(0.95 * printed - 0.051);
    });
  });

  it.each(cases)('$name: exposure missed by 0.5 to 5 s readings', ({ row, fine, top }) => {
    const curve = besideMovingSource(row);
    const clock = { activationEnergyJPerMol: 130_000, referenceC: 177 };
    const truth = equivalentTime(fine, clock);
    for (const intervalS of [0.5, 1, 2, 5])
      for (const phase of [0, 0.25, 0.5, 0.75]) {
        const firstS = top.timeS - (Math.ceil(38 / intervalS) - phase) * intervalS;
        const slow = readEvery(curve, intervalS, firstS, 80);
        const missed = truth / equivalentTime(slow, clock) - 1;
        const { missedExposureFraction, tooSlow } = samplingLoss(slow, clock.activationEnergyJPerMol);
        if (tooSlow) continue;
        // 1e-4: the two records do not end at the same instant.
        expect(missed).toBeGreaterThan(0.8 * missedExposureFraction.nominal - 1e-4);
        expect(missed).toBeLessThan(1.3 * missedExposureFraction.nominal + 1e-4);
      }
  });

  it.each(published.whyThePeakMatters.rows)(
    'peak %f °C, Q %f kJ/mol: share of the exposure within 20 °C',
    (peakC, q, share, ratio) => {
      const { fine, top } = cases.find(({ row }) => Math.abs(row[2]! - peakC!) < 0.6)!;
      const clock = { activationEnergyJPerMol: q! * 1000, referenceC: 177 };
      const above = fine.timeS.filter((_, i) => fine.tempC[i]! > top.tempC - 20);
      // The crossings lie within 0.01 s outside the samples found.
      const crossing = (insideS: number, outsideS: number): number => {
        const inside = tempAt(fine, insideS) - (top.tempC - 20);
        const outside = tempAt(fine, outsideS) - (top.tempC - 20);
        return insideS + ((outsideS - insideS) * inside) / (inside - outside);
      };
      const lastS = above[above.length - 1]!;
      const near = slice(fine, crossing(above[0]!, above[0]! - 0.01), crossing(lastS, lastS + 0.01));
      expect(equivalentTime(near, clock) / equivalentTime(fine, clock)).toBeCloseTo(share!, 2);
      // The published ratio is that of the rates at the two temperatures.
      const slower =
        equivalentTime(isothermal(peakC! - 20, 1), clock) / equivalentTime(isothermal(peakC!, 1), clock);
      expect(slower).toBeCloseTo(ratio!, 2);
      // Scaling the whole rise so that the peak reads 20 °C low does nearly the same to the integral.
      const scale = 1 - 20 / (top.tempC - 20);
      const low = shiftTemperature(fine, (t) => (scale - 1) * (t - 20));
      expect(Math.abs(equivalentTime(low, clock) / equivalentTime(fine, clock) - ratio!)).toBeLessThan(0.02);
    },
  );

  it('worked example: −40 K/s² read every 0.5 s hides 1.25 K', () => {
    const [curvature, intervalS, missedK] = published.missedPeakFormula.rows[0]!;
    const trace = readEvery((t) => 350 + (curvature! / 2) * t * t, intervalS!, -2, 2);
    expect(samplingLoss(trace, 130_000).missedPeakK.high).toBeCloseTo(missedK!, 9);
  });
});
