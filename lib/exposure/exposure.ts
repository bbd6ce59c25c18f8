import { checkHistory, type ThermalHistory } from '../history';
import { TemperbookError } from '../quantity';
import { condense } from './condense';
import type { WeighableSign } from './seen/temperatureSigns';

/** What a doubt is about. Each kind has one owner, and one stream of draws that every channel and door shares. */
export const DOUBT_KINDS = [
  'wire',
  'drift',
  'fixing',
  'between readings',
  'gap',
  'cooling to come',
  'oven',
  'swing',
  'following',
  'written',
  'unseen',
  'offset',
  'arc',
  'heat flow',
  'hotter face',
  'reading',
  'bath',
] as const;
/** What a doubt is about: one of `DOUBT_KINDS`. */
export type DoubtKind = (typeof DOUBT_KINDS)[number];

/** How far a doubt goes, as a multiple z of its shift: evenly from `low` to `high`, or piled up at `likely`. */
export type Spread =
  | { readonly shape: 'even'; readonly low: number; readonly high: number }
  | { readonly shape: 'peaked'; readonly low: number; readonly likely: number; readonly high: number }
  | { readonly shape: 'normal'; readonly mean: number; readonly sd: number };

/** One thing a record leaves open: the metal was hotter than it says by z · `shiftK`, z spread as `spread` says. */
export interface ShiftDoubt {
  readonly kind: DoubtKind;
  /** What it is about, in words. */
  readonly of: string;
  readonly spread: Spread;
  /** K at every sample of the history, for z = 1. */
  readonly shiftK: Float64Array;
}

/** A doubt given as so many equally likely ways the heat may have run, such as the draws of a fit. */
export interface RunsDoubt {
  readonly kind: DoubtKind;
  readonly of: string;
  /** Per way: how much hotter it was than the history says, K at every sample. */
  readonly runsK: readonly Float64Array[];
  /** Per way: when it came to the samples, s, where ways differ in that too: a wait that ended sooner, a slower torch. */
  readonly runsS?: readonly Float64Array[];
}

/** One thing a record leaves open, in either form. */
export type Doubt = ShiftDoubt | RunsDoubt;

/** Time of which nothing bounds how hot the metal got. */
export interface BlindTime {
  readonly fromS: number;
  readonly toS: number;
  /** Why, in a sentence that says what to do about it. */
  readonly because: string;
}

/**
 * What metal saw: a history as it was read or planned, what its record leaves open, where it is blind, and why.
 * A probe of a log, a place in a heat-flow run, a plan, a furnace chart and an earlier record each make one.
 */
export interface Exposure {
  readonly history: ThermalHistory;
  readonly doubts: readonly Doubt[];
  readonly blind: readonly BlindTime[];
  /** What was assumed or bounded, in sentences. */
  readonly because: readonly string[];
  /** What was seen of its temperature besides the record: it weighs the draws (`withSigns`). */
  readonly seen?: readonly WeighableSign[];
}

/** An exposure known to the last degree: a plan as it stands, a schedule. */
export function exactly(history: ThermalHistory): Exposure {
  checkHistory(history);
  return { history, doubts: [], blind: [], because: [] };
}

/**
 * Whatever was given as an exposure; a long history is condensed (`condense`).
 * @throws TemperbookError for anything else, such as a whole log, and as `checkExposure`.
 */
export function asExposure(given: Exposure | ThermalHistory): Exposure {
  if (typeof given !== 'object' || given === null || 'channels' in given)
    throw new TemperbookError('This is neither an exposure nor a thermal history', {
      found: given === null ? 'null' : typeof given === 'object' ? 'a whole log' : `a ${typeof given}`,
      expected: 'what one place saw',
      remedy: 'Of a log, take one channel: exposureOf(log, name, options)',
    });
  if ('doubts' in given) return checkExposure(given);
  checkHistory(given);
  return exactly(condense(given));
}

/**
 * The exposure itself when every doubt fits its history.
 * @throws TemperbookError on a shift of another length than the history, or one that is not a number.
 */
export function checkExposure(exposure: Exposure): Exposure {
  checkHistory(exposure.history);
  const samples = exposure.history.timeS.length;
  for (const doubt of exposure.doubts)
    for (const shiftK of 'runsK' in doubt ? doubt.runsK : [doubt.shiftK])
      if (shiftK.length !== samples || !shiftK.every(Number.isFinite))
        throw new TemperbookError(`The doubt about ${doubt.of} does not fit its history`, {
          found: `${shiftK.length} shifts${shiftK.length === samples ? ', not all of them numbers' : ''}`,
          expected: `${samples} numbers, one for each sample`,
        });
  checkClocks(exposure);
  return exposure;
}

/** Ways with times of their own: one doubt may have them, and each must go forward. */
function checkClocks({ history, doubts }: Exposure): void {
  const clocked = doubts.filter((doubt) => 'runsS' in doubt && doubt.runsS !== undefined);
  if (clocked.length > 1)
    throw new TemperbookError('Two doubts of one history bring times of their own', {
      found: clocked.map(({ of }) => of).join(' and '),
      remedy: 'Put what changes the times into one list of runs',
    });
  for (const doubt of clocked)
    if ('runsS' in doubt)
      for (const timeS of doubt.runsS ?? []) checkHistory({ timeS, tempC: history.tempC });
}
