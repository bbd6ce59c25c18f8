import { describe, expect, it } from 'vitest';
import published from '../../data/published/logger-sampling.json';
import { equivalentTime, samplingLoss } from '../../lib/exposure';
import { type RiseBetween, risesBetween } from '../../lib/exposure/risesBetween';
import { isothermal, type ThermalHistory, tempAt, thermalHistory } from '../../lib/history';
import { anyHistory } from '../history/histories';
import { besideMovingSource } from '../setup/besideMovingSource';
import { fc } from '../setup/fc';

const clock = { activationEnergyJPerMol: 200_000, referenceC: 250 };
type Curve = (t: number) => number;
const readEvery = (curve: Curve, everyS: number, fromS: number, toS: number): ThermalHistory => {
  const timeS = Float64Array.from(
    { length: Math.floor((toS - fromS) / everyS) + 1 },
    (_, i) => fromS + i * everyS,
  );
  return thermalHistory(timeS, timeS.map(curve));
};
/** The readings with what they point to between them. */
function risen(history: ThermalHistory, rises: readonly RiseBetween[]): ThermalHistory {
  const all = [
    ...Array.from(history.timeS, (t, i) => [t, history.tempC[i]!] as const),
    ...rises.flatMap(({ points }) =>
      points.map(({ atS, aboveK }) => [atS, tempAt(history, atS) + aboveK] as const),
    ),
  ].sort(([a], [b]) => a - b);
  return thermalHistory(
    all.map(([t]) => t),
    all.map(([, temp]) => temp),
  );
}
/** Up to 280 °C at t = 0, and back with a time constant. */
const corner =
  (upKPerS: number, tauS: number): Curve =>
  (t) =>
    t < 0 ? Math.max(22, 280 + upKPerS * t) : 22 + 258 * Math.exp(-t / tauS);
const { scenarios, rows } = published.movingLineSource;
/** Least and greatest of integral with rises over true integral, wherever the logger is not called too slow. */
function sharesOf(curve: Curve, intervals: readonly number[]): readonly [number, number] {
  const truth = equivalentTime(readEvery(curve, 0.01, -60, 200), clock);
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (const everyS of intervals)
    for (let phase = 0; phase < 1; phase += 0.1) {
      const read = readEvery(curve, everyS, -(Math.ceil(40 / everyS) - phase) * everyS, 200);
      if (samplingLoss(read, 130_000).tooSlow) continue;
      const share = equivalentTime(risen(read, risesBetween(read, 0.1)), clock) / truth;
      least = Math.min(least, share);
      most = Math.max(most, share);
    }
  return [least, most];
}

describe('risesBetween', () => {
  it.each([
    [14, 60],
    [5, 60],
    [14, 20],
    [30, 15],
    [3, 120],
  ])('finds a corner, up at %d K/s and back with %d s, where it was, at any phase', (upKPerS, tauS) => {
    const [least, most] = sharesOf(corner(upKPerS, tauS), [0.5, 1, 2, 4, 5]);
    expect(least).toBeGreaterThan(0.99);
    expect(most).toBeLessThan(1.01);
  });

  // Cycles of a moving line source (D. Rosenthal's thin plate) worked out apart from this project.
  it.each(rows.map((row) => ({ row, name: `${scenarios[row[0]!]![0]}, ${row[1]} mm` })))(
    'leaves out nothing of a smooth cycle: $name',
    ({ row }) => {
      const [least, most] = sharesOf(besideMovingSource(row), [0.5, 1, 2, 4, 5]);
      expect(least).toBeGreaterThan(0.99);
      expect(most).toBeLessThan(1.4);
    },
  );

  it('finds nothing on straight lines, in a cooling and beside a gap', () => {
    expect(risesBetween(isothermal(200, 3600), 0)).toEqual([]);
    const cooling = readEvery((t) => 22 + 200 * Math.exp(-t / 60), 4, 0, 400);
    expect(risesBetween(cooling, 0.1)).toEqual([]);
    expect(
      risesBetween(thermalHistory([0, 1, 2, 9, 10, 11], [100, 200, 300, 290, 280, 270], [2]), 0),
    ).toEqual([]);
  });

  it('lies above the line and inside its interval, for any history', () => {
    fc.assert(
      fc.property(anyHistory, (history) => {
        for (const { after, points } of risesBetween(history, 0.1)) {
          expect(Array.from(history.gapAfter ?? [])).not.toContain(after);
          for (const { atS, aboveK } of points) {
            expect(atS).toBeGreaterThan(history.timeS[after]!);
            expect(atS).toBeLessThan(history.timeS[after + 1]!);
            expect(aboveK).toBeGreaterThanOrEqual(0);
            expect(aboveK).toBeLessThan(Number.POSITIVE_INFINITY);
          }
        }
      }),
    );
  });
});
