import type { LotWeights } from '../../strength';

/** What is known of a lot as plain data: how much each member weighs, the heaviest 1. */
export interface RecordedLot extends Omit<LotWeights, 'weights'> {
  readonly weights: readonly number[];
}

/** Weights are kept to so many parts of the heaviest: of 4,000 members that move a chance by less than 0.001. */
const PARTS = 10_000;

/** A lot made small enough for a record, some 20 kB. */
export function recordedLot({ name, membersHash, weights, because }: LotWeights): RecordedLot {
  const most = weights.reduce((a, b) => Math.max(a, b), 0);
  const kept = Array.from(weights, (weight) => Math.round((PARTS * weight) / most) / PARTS);
  return { name, membersHash, weights: kept, because };
}

/** The lot that a record holds, for `judge`. */
export const restoredLot = ({ weights, ...lot }: RecordedLot): LotWeights => ({
  ...lot,
  weights: Float64Array.from(weights),
});
