import type { PlatePlan, PlateProbe } from '../../../lib/heatflow';
import type { ExplicitJob, Metal } from './explicit3d';

/** Round numbers near 6061, constant, so that both codes solve the same equation. */
const metal: Metal = { densityKgPerM3: 2700, conductivityWPerMK: 167, specificHeatJPerKgK: 896 };
const FILM = 20;
const RADIUS = 5;

/** One job, as the three-dimensional code takes it and as the plate solver does. */
export interface BothWays {
  readonly name: string;
  readonly explicit: ExplicitJob;
  readonly plan: PlatePlan;
}

const surface = { convectionWPerM2K: FILM, emissivity: 0, ambientC: 20 };
const common = { filmWPerM2K: FILM, ambientC: 20, initialC: 20, everyS: 0.2 };

/** A wall welded along the edge of a block, upper faces flush: x along the weld, the wall at y > 0. */
function step(thickMm: number, thinMm: number, edgeMm: number): BothWays {
  const weld = { fromMm: [4, 0], toMm: [36, 0], travelMmPerS: 4, netPowerW: 1200 } as const;
  // All outside the arc's footprint, where no heat enters a face.
  const at: [number, number, number][] = [
    [20, 8, 0],
    [20, 14, 0],
    [20, 24, 0],
    [20, -8, 0],
    [20, -14, 0],
    [20, -24, 0],
    [20, -8, thickMm],
  ];
  return {
    name: thickMm === thinMm ? `flat plate ${thickMm} mm` : `step ${thickMm} to ${thinMm} mm`,
    explicit: {
      ...common,
      edgeMm,
      blocks: [
        { boxMm: [0, 40, -30, 0, 0, thickMm], metal },
        { boxMm: [0, 40, 0, 40, 0, thinMm], metal },
      ],
      arcs: [{ ...weld, startS: 0, radiusMm: RADIUS }],
      probesMm: at,
      untilS: 24,
    },
    plan: {
      cellMm: 2,
      part: [
        { name: 'block', shape: { rectMm: [0, -30, 40, 0] }, thicknessMm: thickMm, metal },
        { name: 'wall', shape: { rectMm: [0, 0, 40, 40] }, thicknessMm: thinMm, metal },
      ],
      surface,
      initialC: 20,
      passes: [
        {
          path: [weld.fromMm, weld.toMm],
          travelMmPerS: weld.travelMmPerS,
          netPowerW: weld.netPowerW,
          sourceRadiusMm: RADIUS,
        },
      ],
      probes: at.map(
        ([xMm, yMm, z]): PlateProbe => ({
          name: `${yMm} mm ${z ? 'below' : 'above'}`,
          xMm,
          yMm,
          ...(z ? { face: 'bottom' } : {}),
        }),
      ),
      until: { coolForS: 16 },
    },
  };
}

/** A tube of 3 mm wall, 120 mm round, welded once around its middle from x = 0. */
function ring(): BothWays {
  const girth = 120;
  const weld = { fromMm: [0, 20], toMm: [girth, 20], travelMmPerS: 6, netPowerW: 900 } as const;
  const at: [number, number, number][] = [1, 31, 61, 91, 119].flatMap((x) => [
    [x, 30, 1.5],
    [x, 38, 1.5],
  ]);
  return {
    name: 'ring',
    explicit: {
      ...common,
      edgeMm: 1,
      blocks: [{ boxMm: [0, girth, 0, 40, 0, 3], metal }],
      isRing: true,
      arcs: [{ ...weld, startS: 0, radiusMm: RADIUS }],
      probesMm: at,
      untilS: 30,
    },
    plan: {
      cellMm: 2,
      part: [{ name: 'tube', shape: { rectMm: [0, 0, girth, 40] }, thicknessMm: 3, metal }],
      joins: [
        {
          name: 'seam',
          edgeMm: [
            [0, 0],
            [0, 40],
          ],
          toEdgeMm: [
            [girth, 0],
            [girth, 40],
          ],
        },
      ],
      surface,
      initialC: 20,
      passes: [
        {
          path: [weld.fromMm, weld.toMm],
          travelMmPerS: weld.travelMmPerS,
          netPowerW: weld.netPowerW,
          sourceRadiusMm: RADIUS,
        },
      ],
      probes: at.map(([xMm, yMm]) => ({ name: `${xMm} ${yMm}`, xMm, yMm })),
      until: { coolForS: 10 },
    },
  };
}

/** A plate of 4 mm that stands on another, 14 mm beside the weld: y across the base, the third arm 30 mm high. */
function tee(): BothWays {
  const weld = { fromMm: [4, 14], toMm: [36, 14], travelMmPerS: 4, netPowerW: 900 } as const;
  // In the middle of the base's thickness, and of the arm's.
  const base = [4, 24, -6, -16, -26].map((y): [number, number, number] => [20, y, 32]);
  const arm = [5, 15, 25].map((up): [number, number, number] => [20, 0, 30 - up]);
  return {
    name: 'T',
    explicit: {
      ...common,
      edgeMm: 1,
      blocks: [
        { boxMm: [0, 40, -30, 30, 30, 34], metal },
        { boxMm: [0, 40, -2, 2, 0, 30], metal },
      ],
      arcs: [{ ...weld, startS: 0, radiusMm: RADIUS }],
      probesMm: [...base, ...arm],
      untilS: 24,
    },
    plan: {
      cellMm: 2,
      part: [
        { name: 'base', shape: { rectMm: [0, -30, 40, 30] }, thicknessMm: 4, metal },
        { name: 'arm', shape: { rectMm: [0, 50, 40, 80] }, thicknessMm: 4, metal },
      ],
      joins: [
        {
          name: 'foot of the arm',
          edgeMm: [
            [0, 50],
            [40, 50],
          ],
          ontoMm: [
            [0, 0],
            [40, 0],
          ],
        },
      ],
      surface,
      initialC: 20,
      passes: [
        {
          path: [weld.fromMm, weld.toMm],
          travelMmPerS: weld.travelMmPerS,
          netPowerW: weld.netPowerW,
          sourceRadiusMm: RADIUS,
        },
      ],
      probes: [
        ...base.map(([xMm, yMm]) => ({ name: `base ${yMm}`, xMm, yMm })),
        ...arm.map(([xMm, , z]) => ({ name: `arm ${30 - z}`, xMm, yMm: 80 - z })),
      ],
      until: { coolForS: 16 },
    },
  };
}

export const bothWays: readonly BothWays[] = [
  step(12, 12, 1),
  step(25, 3, 1),
  step(12, 3, 1),
  step(8, 3, 1),
  ring(),
  tee(),
];
