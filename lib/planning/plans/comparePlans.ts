import type { Exposure } from '../../exposure';
import {
  drawKnobs,
  type PlanKnob,
  type PlanPoint,
  type PlatePlan,
  planSurface,
  planUnknowns,
} from '../../heatflow';
import { type Judged, knownOptions, requireList, requireNumber, TemperbookError } from '../../quantity';
import { allowanceOf, bandOfDraws, ROUTINE_DRAWS, type VerdictWord, wordOf } from '../../strength';
import { type SoftReach, softReach } from '../softReach';
import { type PlaceStrength, type PlaceStrengthJob, placeStrengths } from './placeStrength';
import { planExposure } from './planExposure';
import {
  type CardMetal,
  hottestToKeep,
  linePlaces,
  metalsOf,
  type PlanMetal,
  placeName,
  USUAL_KEEP_FROM_MM,
} from './planPlaces';
import { surfaceError } from './surfaceError';
import { type Matter, whatMatters } from './whatMatters';

/** A plan with the name it is compared under. */
export interface NamedPlan {
  readonly name: string;
  readonly plan: PlatePlan;
}

/** How plans are compared. */
export interface ComparePlansOptions {
  /** The metals that have to keep their strength; default every alloy the first plan names, in T6. The first ranks. */
  readonly metals?: readonly PlanMetal[];
  readonly allowanceFraction?: number;
  /** Plausible jobs with plausible metals; default 400, at most 4,000. */
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
}

const OPTIONS = [
  'metals',
  'allowanceFraction',
  'draws',
  'seed',
  'unknowns',
  'softZone',
  'toleranceK',
  'longestWaitS',
  'workers',
  'onProgress',
] as const satisfies readonly (keyof ComparePlansOptions)[];

/** What a plan leaves of one of its metals, where that has to keep its strength. */
export interface PlanMetalResult {
  readonly alloy: string;
  readonly temper: string;
  readonly keepFromMm: number;
  /** The weakest of the places compared, draw by draw: yield over yield before. */
  readonly yieldKeptFraction: Judged;
  readonly yieldMPa: Judged;
  readonly chanceKept: number;
  readonly verdict: VerdictWord;
  /** The places, with the highest temperature as planned, °C. */
  readonly places: readonly { readonly name: string; readonly at: PlanPoint; readonly peakC: number }[];
  /** How far from the weld less than the allowance leaves is kept; absent where it was not asked for or no place is solid. */
  readonly softZone?: SoftReach;
  /** Share of draws in which the heat leaves it stronger than it was: under-aged metal gains first, at the price of ductility. */
  readonly gainsShare: number;
  readonly matters: readonly Matter[];
  /** Yield kept by draw. */
  readonly draws: Float64Array;
}

/** One plan of a comparison. */
export interface PlanResult {
  readonly name: string;
  readonly plan: PlatePlan;
  /** Share of draws in which every metal stays within the allowance wherever it has to keep its strength. */
  readonly chanceKept: number;
  readonly verdict: VerdictWord;
  readonly metals: readonly PlanMetalResult[];
  /** Hottest the whole part is in the mean, °C. */
  readonly bodyC: Judged;
  /** By pass: what the interpass probe reads when the arc is struck, or the mean of the part where the pass has none, °C. */
  readonly interpassC: readonly Judged[];
  /** What the arcs bring in as planned, J. */
  readonly heatJ: number;
  /** From the start until the last arc goes out, s. */
  readonly clockTimeS: Judged;
  /** Runs behind it, and how far off strength from their surface was at worst in runs held back, as a share of the yield. */
  readonly surface: { readonly runs: number; readonly heldOut: number; readonly worstKept: number };
  readonly notes: readonly string[];
}

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

/** Share of the work that the runs are; the rest is strength. */
const RUNS_SHARE = 0.7;
/** Strength from a surface further off than this is told. */
const SURFACE_AIM = 0.01;
const MOST_DRAWS = 4000;
/** Hottest places of two plans this close, mm, are one. */
const ALIKE_MM = 6;

/**
 * Runs several plans of one part with their unknowns, and compares what they leave of its strength, in common draws: draw i
 * has the same arc, metal properties, torch, air and plausible metal in every plan, so that differences are the plans'.
 * Each plan's heat is a surface through runs of the solver (`planSurface`), each place an exposure, its strength
 * `strengthAfter`'s. A plan's strength is that of its weakest place further than `keepFromMm` from the weld: all plans
 * are looked at where any of them is hottest.
 * @throws TemperbookError for options it does not know, no plan, plans of one name, a metal the plan does not have, as `solvePlate`, and when `onProgress` says stop.
 */
export function comparePlans(
  plans: readonly (PlatePlan | NamedPlan)[],
  given: ComparePlansOptions = {},
): PlanComparison {
  const options = knownOptions(given, OPTIONS, 'comparePlans');
  const { draws = ROUTINE_DRAWS, seed = 1, softZone = true, onProgress } = options;
  requireNumber(Number.isInteger(draws) ? draws : Number.NaN, 'draws', { low: 20, high: MOST_DRAWS });
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
    if (onProgress?.((step + share) / steps) === false)
      throw new TemperbookError('The comparison was stopped', { remedy: 'Start it again to have an answer' });
  };
  const own = named.map(({ name, plan }) =>
    inPlan(name, () => hottestToKeep(plan, metals, options.longestWaitS)),
  );
  const places = metals.map((_, m) => distinct(own.map((points) => points[m]!)));
  const results = named.map(({ name, plan }, i) => {
    const progress = tell(i);
    return inPlan(name, () =>
      runPlan(
        { name, plan },
        metals,
        places,
        own[i]!,
        { ...options, draws, seed, allowanceFraction, softZone },
        progress,
      ),
    );
  });
  const betterOf = metals.map(({ alloy }, m) => ({
    alloy: alloy.designation,
    better: results.map((a) => results.map((b) => chanceBetter(a.metals[m]!.draws, b.metals[m]!.draws))),
  }));
  return { plans: results, better: betterOf[0]!.better, betterOf, draws, seed };
}

type Metals = readonly CardMetal[];
type Settled = ComparePlansOptions &
  Required<Pick<ComparePlansOptions, 'draws' | 'seed' | 'allowanceFraction' | 'softZone'>>;

function runPlan(
  { name, plan }: NamedPlan,
  metals: Metals,
  places: readonly (readonly PlanPoint[])[],
  own: readonly PlanPoint[],
  options: Settled,
  progress: (share: number) => void,
): PlanResult {
  const { draws, seed, allowanceFraction, workers } = options;
  const keep = metals.map(({ alloy }, m) =>
    places[m]!.map((at) => ({ name: placeName(alloy.designation, at), at, xMm: at[0], yMm: at[1] })),
  );
  const lines = metals.map(({ alloy, area }, m) =>
    options.softZone && !area ? linePlaces(plan, alloy.designation, own[m]!, m + 1) : [],
  );
  const known = new Set(plan.probes.map((probe) => probe.name));
  const added = [...keep.flat(), ...lines.flat()].filter(
    ({ name: probe }) => !known.has(probe) && known.add(probe),
  );
  const unknowns = options.unknowns?.(plan) ?? planUnknowns(plan);
  const surface = planSurface(
    {
      ...plan,
      probes: [...plan.probes, ...added.map(({ name: probe, xMm, yMm }) => ({ name: probe, xMm, yMm }))],
    },
    {
      unknowns,
      seed,
      workers,
      ...(options.toleranceK === undefined ? {} : { toleranceK: options.toleranceK }),
      ...(options.longestWaitS === undefined ? {} : { longestWaitS: options.longestWaitS }),
      onDone: (share) => progress(RUNS_SHARE * share),
    },
  );
  const knobs = drawKnobs(unknowns, draws, seed);
  const isMolten = (probe: string) => surface.molten[surface.plan.probes.findIndex((p) => p.name === probe)]!;
  const exposureOf = (probe: string): Exposure => planExposure(surface, probe, knobs);
  const jobOf = (
    exposure: Exposure,
    { alloy, temper, measuredYieldMPa }: Metals[number],
  ): PlaceStrengthJob => ({
    exposure,
    metal: { alloy, temper, ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }) },
    draws,
    allowanceFraction,
  });
  const jobs = metals.flatMap((metal, m) => {
    const solid = keep[m]!.filter((place) => !isMolten(place.name));
    const exposures = solid.map((place) => exposureOf(place.name));
    return [
      ...exposures.map((exposure) => jobOf(exposure, metal)),
      ...exposures.map((exposure) => jobOf({ ...exposure, doubts: [] }, metal)),
      ...lines[m]!.filter((place) => !isMolten(place.name)).map((place) =>
        jobOf(exposureOf(place.name), metal),
      ),
    ];
  });
  const found = placeStrengths(jobs, {
    workers,
    onDone: (share) => progress(RUNS_SHARE + (1 - RUNS_SHARE) * share),
  });
  let next = 0;
  const take = (count: number): PlaceStrength[] => {
    const part = found.slice(next, next + count);
    next += count;
    return part;
  };
  let worstKept = 0;
  const notes = [...surface.notes];
  const perMetal = metals.map((metal, m): PlanMetalResult => {
    const { alloy, temper, keepFromMm } = metal;
    const solid = keep[m]!.filter((place) => !isMolten(place.name));
    const kept = take(solid.length);
    const asPlanned = take(solid.length);
    const line = lines[m]!.filter((place) => !isMolten(place.name));
    const alongLine = take(line.length);
    const melts = solid.length < keep[m]!.length;
    if (melts)
      notes.push(
        `${alloy.designation} that has to keep its strength may melt in this plan: it counts as lost.`,
      );
    for (const place of solid)
      worstKept = Math.max(worstKept, surfaceError(surface, place.name, { alloy, temper }));
    const weakest = melts ? new Float64Array(draws) : weakestOf(kept, draws);
    const startYield = kept[0]?.startYieldMPa ?? new Float64Array(draws);
    const needed = 1 - allowanceFraction;
    const chance = shareOf(weakest, (value) => value >= needed);
    const because = kept[0]?.because ?? [];
    return {
      alloy: alloy.designation,
      temper,
      keepFromMm: keepFromMm ?? USUAL_KEEP_FROM_MM,
      yieldKeptFraction: bandOfDraws(weakest, '1', because),
      yieldMPa: bandOfDraws(
        weakest.map((value, i) => value * startYield[i]!),
        'MPa',
        because,
      ),
      chanceKept: chance,
      verdict: wordOf(chance, false),
      places: keep[m]!.map((place) => ({
        name: place.name,
        at: place.at,
        peakC: Math.max(
          ...surface.asPlanned.histories[surface.plan.probes.findIndex((p) => p.name === place.name)]!.tempC,
        ),
      })),
      ...(line.length > 0
        ? {
            softZone: softReach(
              line.map(({ distanceMm }, k) => ({
                distanceMm,
                kept: bandOfDraws(alongLine[k]!.yieldKept, '1', []),
              })),
              needed,
            ),
          }
        : {}),
      gainsShare: shareOf(weakest, (value) => value > 1),
      matters: melts ? [] : whatMatters(weakest, unknowns, knobs, weakestOf(asPlanned, draws)),
      draws: weakest,
    };
  });
  if (worstKept > SURFACE_AIM)
    notes.push(
      `Strength from the surface was up to ${(100 * worstKept).toFixed(1)} % of the yield off in runs held back; the band allows for it.`,
    );
  const measures = surface.measures(knobs);
  const band = (of: (measure: (typeof measures)[number]) => number, unit: string): Judged =>
    bandOfDraws(Float64Array.from(measures, of), unit, ['Over the plausible jobs.']);
  const chanceKept = shareOf(perMetal[0]!.draws, (_, i) =>
    perMetal.every((metal) => metal.draws[i]! >= 1 - allowanceFraction),
  );
  return {
    name,
    plan,
    chanceKept,
    verdict: wordOf(chanceKept, false),
    metals: perMetal,
    bodyC: band(({ bodyC }) => bodyC, '°C'),
    interpassC: plan.passes.map((_, k) => band(({ strikeC }) => strikeC[k]!, '°C')),
    heatJ: surface.asPlanned.passes.reduce((sum, pass) => sum + pass.heatJ, 0),
    clockTimeS: band(({ clockS }) => clockS, 's'),
    surface: { runs: surface.runs, heldOut: surface.heldOut.length, worstKept },
    notes,
  };
}

function weakestOf(places: readonly PlaceStrength[], draws: number): Float64Array {
  return Float64Array.from({ length: draws }, (_, i) =>
    Math.min(...places.map(({ yieldKept }) => yieldKept[i]!)),
  );
}

const shareOf = (values: Float64Array, holds: (value: number, index: number) => boolean): number =>
  values.reduce((sum, value, i) => sum + (holds(value, i) ? 1 : 0), 0) / values.length;

/** Share of draws in which a is the larger; a tie counts half. */
const chanceBetter = (a: Float64Array, b: Float64Array): number =>
  a.reduce((sum, value, i) => sum + (value > b[i]! ? 1 : value === b[i]! ? 0.5 : 0), 0) / a.length;

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
