import { effectiveNumber } from '../statistics';
import { type LotWeights, lotsSentence, lotsSpeak, weightsOfLots } from './lot';
import { CLOSE_DRAWS, MOST_DRAWS } from './strengthAfter';

/** Draws that ask about the metal of lots, what each weighs, and what is to be said of it. */
export interface LotDraws {
  readonly count: number;
  /** Absent where no lot speaks. */
  readonly weights?: Float64Array;
  readonly because: readonly string[];
}

/**
 * How many draws to ask about metal of these lots, where `routine` would do for metal of any: the fewest of routine, 1,600 and
 * 4,000 of which the lots leave as many effective ones as half the routine.
 * @throws TemperbookError as `weightsOfLots`.
 */
export function lotDraws(lots: readonly LotWeights[], routine: number): LotDraws {
  if (lots.length === 0) return { count: routine, because: [] };
  const weightsOf = (count: number): Float64Array => weightsOfLots(lots, count)!;
  if (!lotsSpeak(lots)) return { count: routine, because: [lotsSentence(lots, weightsOf(routine))] };
  const count =
    [routine, CLOSE_DRAWS].find((some) => effectiveNumber(weightsOf(some)) >= routine / 2) ?? MOST_DRAWS;
  const weights = weightsOf(count);
  return { count, weights, because: [lotsSentence(lots, weights)] };
}
