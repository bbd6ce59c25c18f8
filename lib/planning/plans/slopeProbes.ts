import type { PlatePlan, PlateProbe } from '../../heatflow';

/** Fall along the probe's own line is taken over so much either way, mm. */
export const SLOPE_MM = 2;

/** Two probes a little further out and in, on the line to the middle of the first pass. */
export function slopeProbes(plan: PlatePlan, probe: PlateProbe): PlateProbe[] {
  const path = plan.passes[0]?.path ?? [];
  if (path.length === 0) return [];
  const middle = path[path.length >> 1]!;
  const [dx, dy] = [middle[0] - probe.xMm, middle[1] - probe.yMm];
  const mm = Math.hypot(dx, dy);
  if (mm < 2 * SLOPE_MM) return [];
  return [-1, 1].map((way) => ({
    ...probe,
    name: `${probe.name} ${way < 0 ? 'outer' : 'inner'}`,
    xMm: probe.xMm + (way * SLOPE_MM * dx) / mm,
    yMm: probe.yMm + (way * SLOPE_MM * dy) / mm,
  }));
}
