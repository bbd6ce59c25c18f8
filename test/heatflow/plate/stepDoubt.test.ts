import { describe, expect, it } from 'vitest';
import { type PlatePlan, solvePlate } from '../../../lib/heatflow';
import { inFull } from '../../setup/extent';

interface Step {
  readonly thickMm: number;
  readonly thinMm: number;
  /** Where the arc runs from the step, mm: below 0 on the thick side. */
  readonly atMm: number;
  readonly powerW: number;
}

const RADIUS_MM = 6;

/** A wall of 100 mm on a block of 80, welded along the step. */
const planOf = ({ thickMm, thinMm, atMm, powerW }: Step): PlatePlan => ({
  cellMm: 4,
  part: [
    { name: 'block', shape: { rectMm: [0, -80, 80, 0] }, thicknessMm: thickMm, metal: 'A356.0' },
    { name: 'wall', shape: { rectMm: [0, 0, 80, 100] }, thicknessMm: thinMm, metal: '6061' },
  ],
  surface: { convectionWPerM2K: 10, emissivity: 0.2, ambientC: 20 },
  initialC: 20,
  passes: [
    {
      path: [
        [4, atMm],
        [76, atMm],
      ],
      travelMmPerS: 2.4,
      netPowerW: powerW,
      sourceRadiusMm: RADIUS_MM,
    },
  ],
  probes: [],
  until: { coolForS: 300 },
});

const steps: Step[] = [
  { thickMm: 24, thinMm: 3, atMm: 0, powerW: 1100 },
  { thickMm: 24, thinMm: 3, atMm: -30, powerW: 1100 },
  { thickMm: 12, thinMm: 3, atMm: 0, powerW: 700 },
  { thickMm: 24, thinMm: 8, atMm: 40, powerW: 1100 },
  { thickMm: 8, thinMm: 3, atMm: 0, powerW: 600 },
  { thickMm: 24, thinMm: 3, atMm: 8, powerW: 500 },
  { thickMm: 12, thinMm: 3, atMm: 20, powerW: 500 },
  { thickMm: 48, thinMm: 6, atMm: 0, powerW: 2400 },
  { thickMm: 24, thinMm: 10, atMm: 0, powerW: 1500 },
];

// Four layers are within 3 % of explicit solutions beside steps (test/heatflow/plate/layers).
describe.each(inFull ? steps : steps.slice(0, 4))(
  'one layer beside a step of $thickMm to $thinMm mm, arc at $atMm mm',
  (step) => {
    const [one, four] = [1, 4].map((layers) => solvePlate({ ...planOf(step), layers })) as [
      ReturnType<typeof solvePlate>,
      ReturnType<typeof solvePlate>,
    ];
    const { columns, rows, cellMm, originMm } = one.grid;
    const across = Array.from({ length: rows }, (_, row) => {
      const place = row * columns + columns / 2;
      const rise = one.peakC[place]! - 20;
      return {
        yMm: originMm[1] + (row + 0.5) * cellMm,
        excess: (four.peakC[place]! - one.peakC[place]!) / rise,
        doubt: one.doubt.differenceK[place]! / rise,
      };
    });

    it('its doubt holds what four layers find, on both sides', () => {
      for (const { yMm, excess, doubt } of across)
        if (Math.abs(yMm - step.atMm) > RADIUS_MM + cellMm) expect(doubt).toBeGreaterThan(excess - 0.03);
    });

    it('nothing is doubted where the thick side has long been even', () => {
      const inside = across.filter(
        ({ yMm }) => yMm < -2 * step.thickMm && Math.abs(yMm - step.atMm) > 2 * step.thickMm,
      );
      for (const { excess, doubt } of inside) {
        expect(excess).toBeLessThan(0.05);
        expect(doubt).toBeLessThan(0.05);
      }
    });
  },
);
