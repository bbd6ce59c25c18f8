import type { PlatePlan } from '../../../lib/heatflow';

/** A plate of 80 × 60 × 6 mm, welded with one pass near its upper edge; change what a test is about. */
export const edgeWeld = (metal: string, more: Partial<PlatePlan> = {}): PlatePlan => ({
  cellMm: 5,
  part: [{ name: 'plate', shape: { rectMm: [0, 0, 80, 60] }, thicknessMm: 6, metal }],
  surface: { convectionWPerM2K: 15, emissivity: 0.3, ambientC: 20 },
  initialC: 20,
  passes: [
    {
      path: [
        [10, 55],
        [70, 55],
      ],
      travelMmPerS: 4,
      netPowerW: 700,
      sourceRadiusMm: 5,
    },
  ],
  probes: [],
  until: { coolForS: 300 },
  ...more,
});
