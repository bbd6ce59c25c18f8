import type { PlanSurface } from '../../heatflow';
import { type Metal, strengthAfter } from '../../strength';

/** Plausible metals of a comparison. */
const DRAWS = 40;

/**
 * How far off strength from a surface was at worst, as a share of the yield: every run held back, every one of forty
 * plausible metals, `strengthAfter` of the history solved against that of the history told.
 */
export function surfaceError(surface: PlanSurface, probe: string, metal: Metal): number {
  let worst = 0;
  for (const index of surface.heldOut.keys()) {
    const { solved, told } = surface.heldOutPair(probe, index);
    const [a, b] = [solved, told].map(
      (history) => strengthAfter(history, metal, { draws: DRAWS, endOnly: true }).draws.yieldKept,
    ) as [Float64Array, Float64Array];
    for (const [i, kept] of a.entries()) worst = Math.max(worst, Math.abs(kept - b[i]!));
  }
  return worst;
}
