import { type AlloyCard, loadAlloy, withMetal } from '../../alloy';
import {
  alloyAt,
  coarserPlan,
  hottestMetal,
  hottestOfAlloy,
  nearestWeld,
  type PlanPoint,
  type PlanShape,
  type PlatePlan,
  type PlateProbe,
  solvePlate,
} from '../../heatflow';
import { MM_PER_INCH, requireNumber, TemperbookError } from '../../quantity';

/** One metal of a part that has to keep its strength. */
export interface PlanMetal {
  /** As the regions of the plan call it, or with its temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  /** Yield measured on the part before the heat, MPa. */
  readonly measuredYieldMPa?: number;
  /** From this distance on to the nearest weld it has to keep its strength, mm; default one inch. */
  readonly keepFromMm?: number;
  /** An area that has to keep its strength, however near the weld, in place of `keepFromMm`. */
  readonly area?: PlanShape;
}

/** The soft zone that US practice reckons with: metal within an inch of a weld is taken as softened anyway. */
export const USUAL_KEEP_FROM_MM = MM_PER_INCH;
/** To find the hottest place a rough run will do. */
const TOLERANCE_K = 2;
/** Places of the soft zone, mm from the weld. */
const DISTANCES_MM = [6, 8, 10, 12, 15, 18, 22, 26, 32, 40, 50, 65];

/** A metal of a plan with its card and its temper. */
export type CardMetal = PlanMetal & { readonly alloy: AlloyCard; readonly temper: string };

/** The metals of a plan by its regions, each in T6, where nobody says more. */
export function metalsOf(plan: PlatePlan, given?: readonly PlanMetal[]): CardMetal[] {
  const named = plan.part.flatMap(({ metal, thicknessMm }) =>
    typeof metal === 'string' && thicknessMm > 0 ? [loadAlloy(metal)] : [],
  );
  const own = [...new Map(named.map((card) => [card.designation, card])).values()];
  if (!given) {
    if (own.length > 0) return own.map((alloy) => ({ alloy, temper: 'T6' }));
    throw new TemperbookError('The plan names no alloy whose strength could be judged', {
      found: 'regions whose metal is written as numbers',
      remedy: 'Give the regions alloys by name',
    });
  }
  return given.map((one) => {
    const metal = withMetal(one);
    const card = metal.alloy;
    requireNumber(metal.keepFromMm ?? 0, `keepFromMm of ${card.designation}`, { low: 0, high: 1e4 });
    if (own.some(({ designation }) => designation === card.designation)) return metal;
    throw new TemperbookError(`No region of the plan is ${card.designation}`, {
      found: own.map(({ designation }) => designation).join(', ') || 'no alloy by name',
      remedy: 'Name the metal as the plan does',
    });
  });
}

/** The hottest metal that has to keep its strength, in a run of the plan as it stands. */
export function hottestToKeep(
  plan: PlatePlan,
  metals: readonly CardMetal[],
  longestWaitS?: number,
): PlanPoint[] {
  const run = solvePlate(coarserPlan(plan), {
    toleranceK: TOLERANCE_K,
    ...(longestWaitS === undefined ? {} : { longestWaitS }),
  });
  return metals.map(({ alloy, area, keepFromMm = USUAL_KEEP_FROM_MM }) => {
    if (area) {
      const { xMm, yMm } = hottestMetal(run, area);
      return [xMm, yMm];
    }
    const found = hottestOfAlloy(run, plan, alloy.designation, keepFromMm);
    if (!found)
      throw new TemperbookError(`No ${alloy.designation} of the plan lies so far from the weld`, {
        found: `keepFromMm ${keepFromMm.toFixed(1)}`,
        remedy: 'Say a smaller keepFromMm for it',
      });
    return found.at;
  });
}

/** Probes along the line from the weld through a place, as far as the metal goes. */
export function linePlaces(
  plan: PlatePlan,
  alloy: string,
  through: PlanPoint,
  number: number,
): (PlateProbe & { readonly distanceMm: number })[] {
  const { at, distanceMm } = nearestWeld(plan, through);
  if (distanceMm === 0) return [];
  const [ux, uy] = [(through[0] - at[0]) / distanceMm, (through[1] - at[1]) / distanceMm];
  const places: (PlateProbe & { readonly distanceMm: number })[] = [];
  for (const mm of DISTANCES_MM) {
    const point: PlanPoint = [at[0] + mm * ux, at[1] + mm * uy];
    if (alloyAt(plan, point) !== alloy) break;
    places.push({ name: `line ${number}, ${alloy}, ${mm} mm`, xMm: point[0], yMm: point[1], distanceMm: mm });
  }
  return places;
}

/** How sentences call a place. */
export const placeName = (alloy: string, [x, y]: PlanPoint): string =>
  `${alloy} at x ${x.toFixed(0)}, y ${y.toFixed(0)} mm`;
