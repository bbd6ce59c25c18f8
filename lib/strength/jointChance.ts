import { weightedShare } from '../statistics';
import type { StrengthAfter } from './strengthAfter';

/**
 * Chance that several places all stay within an allowance: the share of draws, by weight, in which every one keeps
 * `needed`. The places must have been run with equally many draws.
 */
export function jointChance(places: readonly StrengthAfter[], needed: number): number {
  const count = places[0]!.draws.yieldKept.length;
  const weights = places[0]!.weights;
  return weightedShare((i) => places.every(({ draws }) => draws.yieldKept[i]! >= needed), count, weights);
}
