import type { MemberScore } from './memberScores';

/** Coverage with lots, not rows, as what is independent. */
export interface LotCoverage {
  readonly lots: number;
  /** Sum over the lots of the share of their rows outside the band. */
  readonly missedLots: number;
  /** Chance of so many or more, or so few or fewer, were each missed with 10 %; doubled for both sides. */
  readonly chance: number;
}

const MISSED = 0.1;

/**
 * Whether bands that promise 90 % keep it. Rows of a lot share its clock, at worst wholly, so a lot counts once: the
 * missed shares are added up and held against a binomial of as many trials as lots, a broken share rounded up on the
 * side of misses and down on that of hits.
 * @example coverageByLot([]).chance // 1
 */
export function coverageByLot(scores: readonly Pick<MemberScore, 'row' | 'inside'>[]): LotCoverage {
  const byLot = new Map<string, { rows: number; missed: number }>();
  for (const { row, inside } of scores) {
    const { rows, missed } = byLot.get(row.lot) ?? { rows: 0, missed: 0 };
    byLot.set(row.lot, { rows: rows + 1, missed: missed + (inside ? 0 : 1) });
  }
  const lots = byLot.size;
  const missedLots = [...byLot.values()].reduce((sum, { rows, missed }) => sum + missed / rows, 0);
  const soMany = 1 - atMost(Math.ceil(missedLots - 1e-9) - 1, lots);
  const soFew = atMost(Math.floor(missedLots + 1e-9), lots);
  return { lots, missedLots, chance: Math.min(1, 2 * Math.min(soMany, soFew)) };
}

/** Chance of at most so many misses in n lots. */
function atMost(misses: number, n: number): number {
  let sum = 0;
  let term = (1 - MISSED) ** n;
  for (let k = 0; k <= misses; k++) {
    sum += term;
    term *= ((n - k) / (k + 1)) * (MISSED / (1 - MISSED));
  }
  return sum;
}
