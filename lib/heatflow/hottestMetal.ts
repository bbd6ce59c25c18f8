import { loadAlloy } from '../alloy';
import { dataCheck, refuseProblems, TemperbookError } from '../quantity';
import type { PlanPoint, PlanShape, PlatePlan, PlateResult } from './plate';
import { checkShape } from './plate/plan/checkShape';
import { shapeSchema } from './plate/plan/planSchema';
import { distanceToPath, isInside } from './plate/plan/shape';

/** A spot of the part, and how hot it became. */
export interface HottestMetal {
  readonly xMm: number;
  readonly yMm: number;
  readonly peakC: number;
  /** The run is doubtful there. */
  readonly doubtful: boolean;
  /** By how much the metal may have been hotter there than told, K. */
  readonly mayHideK: number;
}

const problemsOfArea = dataCheck(shapeSchema, 'the area');

/**
 * The hottest metal within an area of the part: the one that decides whether the area keeps its temper.
 * @throws TemperbookError when the area is no shape, or no metal lies in it.
 */
export function hottestMetal({ grid, peakC, doubt }: PlateResult, area: PlanShape): HottestMetal {
  refuseProblems('This area', problemsOfArea(area));
  checkShape(area, 'the area');
  const { columns, cellMm, originMm, inPart } = grid;
  let hottest: HottestMetal | undefined;
  for (const [cell, here] of peakC.entries()) {
    const xMm = originMm[0] + ((cell % columns) + 0.5) * cellMm;
    const yMm = originMm[1] + (Math.floor(cell / columns) + 0.5) * cellMm;
    if (inPart[cell] && here > (hottest?.peakC ?? Number.NEGATIVE_INFINITY) && isInside(area, xMm, yMm))
      hottest = {
        xMm,
        yMm,
        peakC: here,
        doubtful: doubt.doubtful[cell] === 1,
        mayHideK: doubt.differenceK[cell]!,
      };
  }
  if (hottest) return hottest;
  throw new TemperbookError('No metal of the part lies in this area', {
    found: JSON.stringify(area),
    remedy: 'Check the area against the regions of the plan',
  });
}

/** The alloy of the part at a point by the plan, or nothing: no metal there, or one without a name. */
export function alloyAt({ part }: PlatePlan, [xMm, yMm]: PlanPoint): string | undefined {
  const region = [...part].reverse().find(({ shape }) => isInside(shape, xMm, yMm));
  if (!region || region.thicknessMm === 0 || typeof region.metal !== 'string') return undefined;
  return loadAlloy(region.metal).designation;
}

/** How far a point is from the nearest weld of a plan, mm, and the nearest point of it. */
export function nearestWeld(
  { passes }: PlatePlan,
  [xMm, yMm]: PlanPoint,
): { readonly distanceMm: number; readonly at: PlanPoint } {
  let best: { distanceMm: number; at: PlanPoint } = { distanceMm: Number.POSITIVE_INFINITY, at: [xMm, yMm] };
  for (const { path, beside } of passes)
    for (const points of beside ? [path, beside.path] : [path])
      for (const [i, from] of points.entries()) {
        const to = points[i + 1] ?? from;
        const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        const square = dx * dx + dy * dy;
        const along = square === 0 ? 0 : ((xMm - from[0]) * dx + (yMm - from[1]) * dy) / square;
        const share = Math.min(1, Math.max(0, along));
        const at: PlanPoint = [from[0] + share * dx, from[1] + share * dy];
        const distanceMm = Math.hypot(xMm - at[0], yMm - at[1]);
        if (distanceMm < best.distanceMm) best = { distanceMm, at };
      }
  return best;
}

/** The hottest place of an alloy at least so far from every weld, with how hot it got; nothing where there is none. */
export function hottestOfAlloy(
  { grid, peakC }: PlateResult,
  plan: PlatePlan,
  alloy: string,
  fromMm: number,
): { readonly at: PlanPoint; readonly peakC: number } | undefined {
  const { columns, cellMm, originMm, inPart } = grid;
  let hottest: { at: PlanPoint; peakC: number } | undefined;
  for (const [cell, here] of peakC.entries()) {
    if (!inPart[cell] || here <= (hottest?.peakC ?? Number.NEGATIVE_INFINITY)) continue;
    const at: PlanPoint = [
      originMm[0] + ((cell % columns) + 0.5) * cellMm,
      originMm[1] + (Math.floor(cell / columns) + 0.5) * cellMm,
    ];
    if (alloyAt(plan, at) === alloy && plan.passes.every(({ path }) => distanceToPath(path, at) >= fromMm))
      hottest = { at, peakC: here };
  }
  return hottest;
}
