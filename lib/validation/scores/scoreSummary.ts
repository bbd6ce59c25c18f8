import { mean } from '../../statistics';
import { coverageByLot } from './coverageByLot';
import type { MemberScore } from './memberScores';

/** What a group of rows says of the members. */
export interface ScoreSummary {
  readonly group: string;
  readonly rows: number;
  /** Independent lots among them. */
  readonly lots: number;
  /** Of the rows with a measured value: mean and root mean square of median less measured; `null` without any. */
  readonly bias: number | null;
  readonly rms: number | null;
  /** Share of rows whose 90 % band holds the measurement. */
  readonly coverage: number;
  /** Chance of misses as odd as these by lot, were the promise of 90 % kept; see `coverageByLot`. */
  readonly chanceOfMisses: number;
  /** Mean half-width of that band. */
  readonly halfWidth: number;
  readonly intervalScore: number | null;
  readonly frozenScore: number | null;
}

/** Summaries by whatever names a score's group; only rows of one unit belong into a group. */
export function scoreSummary(
  scores: readonly MemberScore[],
  groupOf: (score: MemberScore) => string,
): readonly ScoreSummary[] {
  const groups = new Map<string, MemberScore[]>();
  for (const score of scores) groups.set(groupOf(score), [...(groups.get(groupOf(score)) ?? []), score]);
  return [...groups].map(([group, members]) => {
    const errors = members.flatMap(({ error }) => error ?? []);
    const both = members.filter(
      ({ intervalScore, frozenScore }) => intervalScore !== null && frozenScore !== null,
    );
    return {
      group,
      rows: members.length,
      lots: new Set(members.map(({ row }) => row.lot)).size,
      bias: errors.length > 0 ? mean(errors) : null,
      rms: errors.length > 0 ? Math.sqrt(mean(errors.map((e) => e * e))) : null,
      coverage: members.filter(({ inside }) => inside).length / members.length,
      chanceOfMisses: coverageByLot(members).chance,
      halfWidth: mean(members.map(({ predicted: p }) => (p.measuredHigh - p.measuredLow) / 2)),
      intervalScore: both.length > 0 ? mean(both.map((score) => score.intervalScore!)) : null,
      frozenScore: both.length > 0 ? mean(both.map((score) => score.frozenScore!)) : null,
    };
  });
}
