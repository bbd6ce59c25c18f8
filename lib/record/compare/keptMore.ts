import { membersHash } from '../../kinetics';
import { chanceBetter } from '../../statistics';
import { type LotWeights, lotDraws, product, ROUTINE_DRAWS, strengthAfter } from '../../strength';
import type { WeldPlace } from './weld';

/** What a place kept, draw by draw, and what each draw weighs by its lots and by what was seen of its heats. */
export interface Kept {
  readonly yieldKept: Float64Array;
  readonly lotNames: readonly string[];
  readonly byLots: Float64Array | undefined;
  readonly bySigns: Float64Array | undefined;
}

/** What a place kept, or why nobody knows. */
export type KeptOrWhyNot = Kept | { readonly notKnownBecause: string };

/** The draws of a place of metal of these lots. */
export function keptAt(
  { exposure, earlier, alloy, temper, measuredYieldMPa, chanceKept }: WeldPlace,
  lots: readonly LotWeights[],
): KeptOrWhyNot {
  if (chanceKept === null) return { notKnownBecause: 'heat may be hidden' };
  if (lots.some((lot) => lot.membersHash !== membersHash()))
    return { notKnownBecause: 'its lot was weighed with the metals of another version' };
  const { count: draws, weights: byLots } = lotDraws(lots, ROUTINE_DRAWS);
  const metal = { alloy, temper, measuredYieldMPa };
  const after = strengthAfter(exposure, metal, { earlier, draws, endOnly: true });
  const lotNames = lots.map(({ name }) => name).sort();
  return { yieldKept: after.draws.yieldKept, lotNames, byLots, bySigns: after.weights };
}

/**
 * Chance that one place kept more than another: draw by draw where both are of the same lots or no lot is known of either, as one
 * metal went through both; every draw with every other where they are two metals. Equal counts half.
 */
export function keptMore(
  a: KeptOrWhyNot,
  b: KeptOrWhyNot,
): { readonly firstKeptMore: number | null; readonly notKnownBecause?: string } {
  for (const one of [a, b])
    if ('notKnownBecause' in one) return { firstKeptMore: null, notKnownBecause: one.notKnownBecause };
  const [first, other] = [a, b] as [Kept, Kept];
  const isOneMetal = JSON.stringify(first.lotNames) === JSON.stringify(other.lotNames);
  return { firstKeptMore: isOneMetal ? inStep(first, other) : apart(first, other) };
}

const inStep = (a: Kept, b: Kept): number =>
  chanceBetter(a.yieldKept, b.yieldKept, product(a.byLots, product(a.bySigns, b.bySigns)));

function apart(a: Kept, b: Kept): number {
  const [ofA, ofB] = [inOrder(a), inOrder(b)];
  let [below, upTo, more, all] = [0, 0, 0, 0];
  let [first, next] = [0, 0];
  for (const { kept, weight } of ofA) {
    while (ofB[first] && ofB[first].kept < kept) below += ofB[first++]!.weight;
    while (ofB[next] && ofB[next].kept <= kept) upTo += ofB[next++]!.weight;
    more += (weight * (below + upTo)) / 2;
    all += weight;
  }
  return more / all / ofB.reduce((sum, { weight }) => sum + weight, 0);
}

function inOrder({ yieldKept, byLots, bySigns }: Kept) {
  const weights = product(byLots, bySigns);
  return Array.from(yieldKept, (kept, i) => ({ kept, weight: weights?.[i] ?? 1 })).sort(
    (one, other) => one.kept - other.kept,
  );
}
