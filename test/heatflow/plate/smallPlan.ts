import type { MetalProperties, PlatePlan } from '../../../lib/heatflow';

/** A made-up metal with round numbers, near aluminium. */
export const plainMetal = {
  densityKgPerM3: 2700,
  conductivityWPerMK: 170,
  specificHeatJPerKgK: 1000,
} as const satisfies MetalProperties;

/** The same, with a melting range. */
export const meltingMetal = {
  ...plainMetal,
  latentHeatJPerKg: 390_000,
  solidusC: 560,
  liquidusC: 620,
} as const satisfies MetalProperties;

/** A plate of 60 × 40 × 4 mm in still air, one pass along its middle; change what a test is about. */
export const smallPlan = (more: Partial<PlatePlan> = {}): PlatePlan => ({
  cellMm: 2,
  part: [{ name: 'plate', shape: { rectMm: [0, 0, 60, 40] }, thicknessMm: 4, metal: plainMetal }],
  surface: { convectionWPerM2K: 10, emissivity: 0.2, ambientC: 20 },
  initialC: 20,
  passes: [
    {
      path: [
        [10, 20],
        [50, 20],
      ],
      travelMmPerS: 5,
      netPowerW: 800,
      sourceRadiusMm: 4,
    },
  ],
  probes: [{ name: 'near', xMm: 31, yMm: 31 }],
  until: { coolForS: 20 },
  ...more,
});

/** The pass of `smallPlan`, changed. */
export const withPass = (more: Partial<PlatePlan['passes'][number]>): PlatePlan =>
  smallPlan({ passes: [{ ...smallPlan().passes[0]!, ...more }] });
