import { membersHash } from '../kinetics';
import { TemperbookError } from '../quantity';
import { effectiveNumber } from '../statistics';

/** What is known of a lot of metal: how much each plausible metal weighs in the light of its coupons. */
export interface LotWeights {
  readonly name: string;
  /** Of the members that were weighed. */
  readonly membersHash: string;
  /** By member, in the order that all doors share; 0 and up. */
  readonly weights: Float64Array;
  readonly because: readonly string[];
}

/** With fewer equally likely members than this left, weights no longer speak. */
export const MUTE_BELOW = 100;

/**
 * How much the first `count` members weigh in the light of several lots together; none where nothing is known.
 * @throws TemperbookError for weights of other members than the kit now holds, or of too few.
 */
export function weightsOfLots(
  lots: readonly LotWeights[] | undefined,
  count: number,
): Float64Array | undefined {
  if (lots === undefined || lots.length === 0) return undefined;
  const weights = new Float64Array(count).fill(1);
  for (const lot of lots) {
    checkLot(lot, count);
    for (let i = 0; i < count; i++) weights[i]! *= lot.weights[i]!;
  }
  return weights;
}

/** Whether lots leave enough of the members they weigh: where they do not, the answer is without them, at every door. */
export function lotsSpeak(lots: readonly LotWeights[]): boolean {
  const weights = weightsOfLots(lots, Math.min(...lots.map((lot) => lot.weights.length)));
  return weights !== undefined && effectiveNumber(weights) >= MUTE_BELOW;
}

function checkLot({ name, membersHash: found, weights }: LotWeights, count: number): void {
  const expected = membersHash();
  if (found !== expected)
    throw new TemperbookError(`The lot "${name}" was weighed with other plausible metals`, {
      found: `members ${found}`,
      expected: `members ${expected}`,
      remedy: 'Make the lot’s card again from its coupons (lotCard), and look at what moved',
    });
  if (weights.length < count)
    throw new TemperbookError(`The lot "${name}" has too few weights`, {
      found: `${weights.length}`,
      expected: `one for each of at least ${count} members`,
    });
}

/** How many equally likely members lots leave, and what that means for the answer. */
export function lotsSentence(lots: readonly LotWeights[], weights: Float64Array): string {
  const left = Math.round(effectiveNumber(weights));
  const names = lots.map(({ name }) => name).join(', ');
  return !lotsSpeak(lots)
    ? `Hardly any plausible metal fits what coupons or chart say of ${names} (${left} of ${weights.length}): they cannot weigh the answer, which is without them.`
    : `Weighed by what coupons or chart say of ${names}: ${left} of ${weights.length} plausible metals are left.`;
}
