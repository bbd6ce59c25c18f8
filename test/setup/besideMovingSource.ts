import published from '../../data/published/logger-sampling.json';
import { thinPlateRise } from '../../lib/heatflow';

const { scenarios } = published.movingLineSource;

/** Temperature beside the weld of a published row [scenario, mm across], °C, t s after the arc passed. */
export function besideMovingSource(row: readonly number[]): (t: number) => number {
  const [, netPowerW, travelMmPerS, thicknessMm] = scenarios[row[0]!] as [string, number, number, number];
  return (t) =>
    20 +
    thinPlateRise({
      netPowerW,
      travelMmPerS,
      thicknessMm,
      conductivityWPerMK: 175,
      volumetricHeatJPerM3K: 2.754e6,
      alongMm: -travelMmPerS * t,
      acrossMm: row[1]!,
    });
}
