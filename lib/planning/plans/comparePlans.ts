import type { PlanKnob, PlanPoint, PlatePlan } from '../../heatflow';
import { knownOptions, requireList, requireNumber, TemperbookError } from '../../quantity';
import { chanceBetter } from '../../statistics';
import { allowanceOf, type LotWeights, lotDraws, ROUTINE_DRAWS } from '../../strength';
import { hottestToKeep, metalsOf, type PlanMetal } from './planPlaces';
import { type NamedPlan, type PlanResult, planResult } from './planResult';

/** How plans are compared. */
export interface ComparePlansOptions {
  /** The metals that have to keep their strength; default every alloy the first plan names, in T6. The first ranks. */
  readonly metals?: readonly PlanMetal[];
  readonly allowanceFraction?: number;
  /** What coupons or a chart say of the lots of metal in the part. */
  readonly lots?: readonly LotWeights[];
  /** Plausible jobs with plausible metals; default 400, at most 4,000. More where lots leave fewer than half of them (`lotDraws`). */
  readonly draws?: number;
  readonly seed?: number;
  /** What is not known of a plan; default `planUnknowns`. */
  readonly unknowns?: (plan: PlatePlan) => readonly PlanKnob[];
  /** Whether to tell how wide the soft zone is; default true. */
  readonly softZone?: boolean;
  readonly toleranceK?: number;
  readonly longestWaitS?: number;
  /** Threads; default one for each processor, four at most. The answer is the same. */
  readonly workers?: number;
  /** Called with the share done after every run and every place; `false` stops the comparison. */
  readonly onProgress?: (share: number) => unknown;
  /** Stops the comparison too, looked at as often: it runs without a pause, so abort it from `onProgress` or before. */
  readonly signal?: AbortSignal;
}

/** What every question that runs plans takes. */
export const RUN_OPTIONS = [
  'allowanceFraction',
  'lots',
  'draws',
  'seed',
  'unknowns',
  'toleranceK',
  'longestWaitS',
  'workers',
  'signal',
] as const satisfies readonly (keyof ComparePlansOptions)[];

const OPTIONS = [
  ...RUN_OPTIONS,
  'metals',
  'softZone',
  'onProgress',
] as const satisfies readonly (keyof ComparePlansOptions)[];

/** Plans compared draw by draw. */
export interface PlanComparison {
  readonly plans: readonly PlanResult[];
  /** Chance that plan i leaves more of the first metal than plan j; a tie counts half. In MPa and in % alike. */
  readonly better: number[][];
  /** The same for each metal by itself. */
  readonly betterOf: readonly { readonly alloy: string; readonly better: number[][] }[];
  readonly draws: number;
  readonly seed: number;
}

const MOST_DRAWS = 4000;
/** Hottest places of two plans this close, mm, are one. */
const ALIKE_MM = 6;

/**
 * Runs several plans of one part with their unknowns, and compares what they leave of its strength, in common draws: draw i
 * has the same arc, metal properties, torch, air and plausible metal in every plan, so that differences are the plans'.
 * Each plan's heat is a surface through runs of the solver (`planSurface`), each place an exposure, its strength
 * `strengthAfter`'s. A plan's strength is that of its weakest place further than `keepFromMm` from the weld: all plans
 * are looked at where any of them is hottest.
 * @throws TemperbookError for options it does not know, no plan, plans of one name, a metal the plan does not have, as `solvePlate`, and when `onProgress` or `signal` says stop.
 */
export function comparePlans(
  plans: readonly (PlatePlan | NamedPlan)[],
  given: ComparePlansOptions = {},
): PlanComparison {
  const options = knownOptions(given, OPTIONS, 'comparePlans');
  const { draws: asked = ROUTINE_DRAWS, seed = 1, softZone = true, onProgress, signal } = options;
  requireNumber(Number.isInteger(asked) ? asked : Number.NaN, 'draws', { low: 20, high: MOST_DRAWS });
  const byLots = lotDraws(requireList(options.lots ?? [], 'Lots'), asked);
  const { count: draws } = byLots;
  const allowanceFraction = allowanceOf(options.allowanceFraction);
  const named = requireList(plans, 'Plans to compare', 1).map(
    (one, i): NamedPlan => ('plan' in one ? one : { name: `plan ${i + 1}`, plan: one }),
  );
  const names = named.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) throw new TemperbookError('Two plans have the same name', { found: `"${twice}"` });
  const metals = metalsOf(named[0]!.plan, options.metals);
  const steps = named.length;
  const tell = (step: number) => (share: number) => {
    if (onProgress?.((step + share) / steps) === false || signal?.aborted)
      throw new TemperbookError('The comparison was stopped', { remedy: 'Start it again to have an answer' });
  };
  const own = named.map(({ name, plan }) =>
    inPlan(name, () => hottestToKeep(plan, metals, options.longestWaitS)),
  );
  const places = metals.map((_, m) => distinct(own.map((points) => points[m]!)));
  const compared = { ...options, metals, places, draws, byLots, seed, allowanceFraction, softZone };
  const results = named.map((one, i) => inPlan(one.name, () => planResult(one, own[i]!, compared, tell(i))));
  const betterOf = metals.map(({ alloy }, m) => ({
    alloy: alloy.designation,
    better: results.map((a) =>
      results.map((b) => chanceBetter(a.metals[m]!.draws, b.metals[m]!.draws, byLots.weights)),
    ),
  }));
  return { plans: results, better: betterOf[0]!.better, betterOf, draws, seed };
}

/** Points that are not nearly the same, whatever the order of the plans they are from. */
function distinct(points: readonly PlanPoint[]): PlanPoint[] {
  const sorted = [...points].sort(([ax, ay], [bx, by]) => ax - bx || ay - by);
  const kept: PlanPoint[] = [];
  for (const [x, y] of sorted)
    if (!kept.some(([u, v]) => Math.hypot(x - u, y - v) < ALIKE_MM)) kept.push([x, y]);
  return kept;
}

/** Where in the plans an error lies. */
function inPlan<Answer>(name: string, run: () => Answer): Answer {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof TemperbookError)) throw error;
    throw new TemperbookError(`In the plan "${name}": ${error.message.replace(/\.$/, '')}`);
  }
}
