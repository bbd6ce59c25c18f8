import {
  type EvidenceRow,
  evidenceTable,
  type FrozenPrediction,
  frozenPredictions,
  type MetalFamily,
  type RowPrediction,
  rowPrediction,
} from '../../kinetics';
import { normalQuantile } from '../../statistics';

/** A band that promises 90 %. */
const ALPHA = 0.1;

/** One measured row beside what the members say of it and what the kit said before it was fitted to any. */
export interface MemberScore {
  readonly row: EvidenceRow;
  readonly predicted: RowPrediction;
  readonly frozen: FrozenPrediction['model'];
  /** Median less measured; `null` where only a side was measured. */
  readonly error: number | null;
  /** Whether the 90 % band of what would be measured holds the value, or reaches to the right side of the bound. */
  readonly inside: boolean;
  /** Interval scores of the 90 % bands, now and frozen; `null` where only a side was measured or nothing was frozen. */
  readonly intervalScore: number | null;
  readonly frozenScore: number | null;
}

/**
 * Every row of evidence that says something new about the members' property, against them. Rows that repeat another
 * are left out, as are alloys outside the family's cards.
 */
export function memberScores(
  count = 400,
  family?: MetalFamily,
  rows: readonly EvidenceRow[] = evidenceTable(),
): readonly MemberScore[] {
  return scored(rows, (row) => rowPrediction(row, { count, family }));
}

/** The same rows against what the kit said before it was fitted to any, where it gave a band. */
export function frozenScores(rows: readonly EvidenceRow[] = evidenceTable()): readonly MemberScore[] {
  return scored(rows, (row, frozen) => {
    if (frozen?.low === undefined || frozen.high === undefined) return null;
    const { nominal: median, low, high } = frozen;
    const noise = rowNoise(row);
    return {
      median,
      low,
      high,
      measuredLow: median - Math.hypot(median - low, noise),
      measuredHigh: median + Math.hypot(high - median, noise),
    };
  });
}

function scored(
  rows: readonly EvidenceRow[],
  predict: (row: EvidenceRow, frozen: FrozenPrediction['model']) => RowPrediction | null,
): readonly MemberScore[] {
  const models = new Map(frozenPredictions().rows.map(({ id, model }) => [id, model]));
  return rows.flatMap((row) => {
    if (row.use === 'repeat') return [];
    const frozen = models.get(row.id) ?? null;
    const predicted = predict(row, frozen);
    return predicted ? [scoreOf(row, predicted, frozen)] : [];
  });
}

/** Half the band that the measurement alone would have; what is recalled counts with twice its error. */
const rowNoise = ({ measured, known }: EvidenceRow): number =>
  normalQuantile(1 - ALPHA / 2) * measured.standardError * (known === 'memory' ? 2 : 1);

function scoreOf(row: EvidenceRow, predicted: RowPrediction, frozen: FrozenPrediction['model']): MemberScore {
  const { kind, value } = row.measured;
  const { median, measuredLow, measuredHigh } = predicted;
  const inside = (kind === 'below' || measuredHigh >= value) && (kind === 'atLeast' || measuredLow <= value);
  const sided = kind === 'atLeast' || kind === 'below';
  const noise = rowNoise(row);
  return {
    row,
    predicted,
    frozen,
    error: sided ? null : median - value,
    inside,
    intervalScore: sided ? null : intervalScore(measuredLow, measuredHigh, value),
    frozenScore:
      sided || frozen?.low === undefined || frozen.high === undefined
        ? null
        : intervalScore(
            frozen.nominal - Math.hypot(frozen.nominal - frozen.low, noise),
            frozen.nominal + Math.hypot(frozen.high - frozen.nominal, noise),
            value,
          ),
  };
}

/**
 * Interval score of a band that promises 90 %: its width, and 2/0.1 times what a value lies outside; the less the
 * better. Source: T. Gneiting, A.E. Raftery, J. Am. Stat. Assoc. 102 (2007) 359, eq. 43. For instance a band from 0.8 to
 * 0.9 scores 0.1 on 0.85 and 0.3 on 0.91.
 */
export function intervalScore(low: number, high: number, value: number): number {
  return high - low + (2 / ALPHA) * (Math.max(0, low - value) + Math.max(0, value - high));
}
