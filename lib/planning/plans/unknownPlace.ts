import { nearestWeld, type PlanUnknown, type PlatePlan } from '../../heatflow';

/** Furthest a probe is looked for from its marked place, in what it may be off by. */
const FARTHEST = 3;

/** Where a probe really sits, along the line away from the weld; positive is further out. */
export function unknownPlace(plan: PlatePlan, name: string, withinMm: number): PlanUnknown {
  const probe = plan.probes.find((one) => one.name === name)!;
  const { at, distanceMm } = nearestWeld(plan, [probe.xMm, probe.yMm]);
  const [ux, uy] =
    distanceMm > 0 ? [(probe.xMm - at[0]) / distanceMm, (probe.yMm - at[1]) / distanceMm] : [0, 0];
  return {
    start: 0,
    low: -FARTHEST * withinMm,
    high: FARTHEST * withinMm,
    unit: 'mm',
    label: `${name} further from the weld than marked`,
    isNuisance: true,
    prior: { value: 0, standardError: withinMm },
    apply: (changed, value) => ({
      ...changed,
      probes: changed.probes.map((one) =>
        one.name === name ? { ...one, xMm: one.xMm + value * ux, yMm: one.yMm + value * uy } : one,
      ),
    }),
  };
}
