import type { Exposure } from '../../exposure';
import {
  drawKnobs,
  type PlanKnob,
  type PlanKnobs,
  type PlanPoint,
  type PlatePlan,
  planSurface,
  planUnknowns,
} from '../../heatflow';
import type { Judged } from '../../quantity';
import { weightedShare } from '../../statistics';
import { bandOfDraws, type LotDraws, ROUTINE_DRAWS, type VerdictWord, wordOf } from '../../strength';
import { metalResult, type PlanMetalResult } from './metalResult';
import { type PlaceStrength, type PlaceStrengthJob, placeStrengths } from './placeStrength';
import { planExposure } from './planExposure';
import { type CardMetal, linePlaces, placeName } from './planPlaces';
import { surfaceError } from './surfaceError';

/** A plan with the name it is compared under. */
export interface NamedPlan {
  readonly name: string;
  readonly plan: PlatePlan;
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

/** What every plan of a comparison has in common. */
export interface Compared {
  readonly metals: readonly CardMetal[];
  /** By metal: where any of the plans is hottest. */
  readonly places: readonly (readonly PlanPoint[])[];
  readonly draws: number;
  /** What the lots say of these draws. */
  readonly byLots: Omit<LotDraws, 'count'>;
  readonly seed: number;
  readonly allowanceFraction: number;
  readonly softZone: boolean;
  readonly unknowns?: (plan: PlatePlan) => readonly PlanKnob[];
  readonly toleranceK?: number;
  readonly longestWaitS?: number;
  readonly workers?: number;
}

/** Share of the work that the runs are; the rest is strength. */
const RUNS_SHARE = 0.7;
/** Strength from a surface further off than this is told. */
const SURFACE_AIM = 0.01;

/**
 * One plan of a comparison: a surface through runs of it, and the strength of its places over the common draws. `own` are its
 * hottest places by metal.
 */
export function planResult(
  { name, plan }: NamedPlan,
  own: readonly PlanPoint[],
  options: Compared,
  progress: (share: number) => void,
): PlanResult {
  const { metals, places, draws, byLots, seed, allowanceFraction, workers } = options;
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
  // For variances and quantiles routine draws will do, where all weigh alike.
  const fewer = byLots.weights ? knobs : knobs.slice(0, ROUTINE_DRAWS);
  const exposureOf = (probe: string, jobs: readonly PlanKnobs[]): Exposure =>
    planExposure(surface, probe, jobs);
  const jobOf = (
    exposure: Exposure,
    { alloy, temper, measuredYieldMPa }: Compared['metals'][number],
    count: number,
  ): PlaceStrengthJob => ({
    exposure,
    metal: { alloy, temper, ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }) },
    draws: count,
    allowanceFraction,
  });
  const jobs = metals.flatMap((metal, m) => {
    const solid = keep[m]!.filter((place) => !isMolten(place.name));
    const exposures = solid.map((place) => exposureOf(place.name, knobs));
    return [
      ...exposures.map((exposure) => jobOf(exposure, metal, draws)),
      ...exposures.map((exposure) => jobOf({ ...exposure, doubts: [] }, metal, fewer.length)),
      ...lines[m]!.filter((place) => !isMolten(place.name)).map((place) =>
        jobOf(exposureOf(place.name, fewer), metal, fewer.length),
      ),
    ];
  });
  const found = placeStrengths(jobs, {
    workers,
    onDone: (share) => progress(RUNS_SHARE + (1 - RUNS_SHARE) * share),
  });
  let next = 0;
  const take = (count: number): PlaceStrength[] => {
    next += count;
    return found.slice(next - count, next);
  };
  const drawn = { surface, unknowns, knobs, byLots, allowanceFraction };
  // What a run says of places that were only looked at here is in their bands.
  const ofPlan = surface.asPlanned.notes.filter(
    (note) => !added.some((one) => note.includes(`"${one.name}"`)),
  );
  const notes = [...ofPlan, ...surface.notes, ...byLots.because];
  let worstKept = 0;
  const perMetal = metals.map((metal, m) => {
    const { alloy, temper } = metal;
    const solid = keep[m]!.filter(({ name: place }) => !isMolten(place));
    const solidLine = lines[m]!.filter(({ name: place }) => !isMolten(place));
    if (solid.length < keep[m]!.length)
      notes.push(
        `${alloy.designation} that has to keep its strength may melt in this plan: it counts as lost.`,
      );
    for (const place of solid)
      worstKept = Math.max(worstKept, surfaceError(surface, place.name, { alloy, temper }));
    const [kept, asPlanned, along] = [take(solid.length), take(solid.length), take(solidLine.length)];
    const line = solidLine.map(({ distanceMm }, k) => ({ distanceMm, kept: along[k]! }));
    return metalResult(metal, { places: keep[m]!, kept, asPlanned, line }, drawn);
  });
  if (worstKept > SURFACE_AIM)
    notes.push(
      `Strength from the surface was up to ${(100 * worstKept).toFixed(1)} % of the yield off in runs held back; the band allows for it.`,
    );
  const measures = surface.measures(knobs);
  const band = (of: (measure: (typeof measures)[number]) => number, unit: string): Judged =>
    bandOfDraws(Float64Array.from(measures, of), unit, ['Over the plausible jobs.']);
  const chanceKept = weightedShare(
    (i) => perMetal.every((metal) => metal.draws[i]! >= 1 - allowanceFraction),
    draws,
    byLots.weights,
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
