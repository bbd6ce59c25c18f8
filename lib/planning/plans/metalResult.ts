import type { PlanKnob, PlanKnobs, PlanPoint, PlanSurface } from '../../heatflow';
import type { Judged } from '../../quantity';
import { weightedShare } from '../../statistics';
import { bandOfDraws, type LotDraws, type VerdictWord, wordOf } from '../../strength';
import { type SoftReach, softReach } from '../softReach';
import type { PlaceStrength } from './placeStrength';
import { type CardMetal, USUAL_KEEP_FROM_MM } from './planPlaces';
import { type Matter, whatMatters } from './whatMatters';

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
  /** Yield kept by draw; what each weighs is what the lots say (`lotDraws`). */
  readonly draws: Float64Array;
}

/** The strength of one metal's places, in their order. */
export interface StrengthOfPlaces {
  /** Where it has to keep its strength: every place, and of those that stay solid the strength and that of the heat as planned. */
  readonly places: readonly { readonly name: string; readonly at: PlanPoint }[];
  readonly kept: readonly PlaceStrength[];
  readonly asPlanned: readonly PlaceStrength[];
  /** Solid places along the line from the weld. */
  readonly line: readonly { readonly distanceMm: number; readonly kept: PlaceStrength }[];
}

/** The jobs the strengths were drawn over. */
export interface DrawnJobs {
  readonly surface: PlanSurface;
  readonly unknowns: readonly PlanKnob[];
  readonly knobs: readonly PlanKnobs[];
  readonly byLots: Omit<LotDraws, 'count'>;
  readonly allowanceFraction: number;
}

/** What a plan leaves of a metal: that of its weakest place, draw by draw; nothing where one of them may melt. */
export function metalResult(
  { alloy, temper, keepFromMm }: CardMetal,
  { places, kept, asPlanned, line }: StrengthOfPlaces,
  { surface, unknowns, knobs, byLots: { weights, because: ofLots }, allowanceFraction }: DrawnJobs,
): PlanMetalResult {
  const draws = knobs.length;
  const melts = kept.length < places.length;
  const weakest = melts ? new Float64Array(draws) : weakestOf(kept);
  const startYield = kept[0]?.startYieldMPa ?? new Float64Array(draws);
  const needed = 1 - allowanceFraction;
  const chanceKept = weightedShare((i) => weakest[i]! >= needed, draws, weights);
  const because = [...(kept[0]?.because ?? []), ...ofLots];
  const historyOf = (name: string) =>
    surface.asPlanned.histories[surface.plan.probes.findIndex((probe) => probe.name === name)]!;
  return {
    alloy: alloy.designation,
    temper,
    keepFromMm: keepFromMm ?? USUAL_KEEP_FROM_MM,
    yieldKeptFraction: bandOfDraws(weakest, '1', because, weights),
    yieldMPa: bandOfDraws(
      weakest.map((value, i) => value * startYield[i]!),
      'MPa',
      because,
      weights,
    ),
    chanceKept,
    verdict: wordOf(chanceKept, false),
    places: places.map(({ name, at }) => ({ name, at, peakC: Math.max(...historyOf(name).tempC) })),
    ...(line.length > 0 ? { softZone: reachAlong(line, needed, weights) } : {}),
    gainsShare: weightedShare((i) => weakest[i]! > 1, draws, weights),
    matters: melts ? [] : whatMatters(weakest, { unknowns, knobs, weights }, weakestOf(asPlanned)),
    draws: weakest,
  };
}

const reachAlong = (line: StrengthOfPlaces['line'], needed: number, weights?: Float64Array): SoftReach =>
  softReach(
    line.map(({ distanceMm, kept }) => ({ distanceMm, kept: bandOfDraws(kept.yieldKept, '1', [], weights) })),
    needed,
  );

function weakestOf([first, ...others]: readonly PlaceStrength[]): Float64Array {
  return first!.yieldKept.map((kept, i) =>
    others.reduce((least, { yieldKept }) => Math.min(least, yieldKept[i]!), kept),
  );
}
