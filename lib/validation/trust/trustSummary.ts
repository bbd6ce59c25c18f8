import { bestStretch, type ClockFactor } from './clockFactor';
import type { TrustRow } from './modelTrust';

/** How a model fares over many facts. */
export interface TrustSummary {
  readonly facts: number;
  /** Of them, those its constants were fitted to. */
  readonly fitted: number;
  /** Of them, those that ask a model beyond what it is made for. */
  readonly outside: number;
  /** Within two standard errors of the measurement. */
  readonly withinDoubt: number;
  /** Root mean square of the residuals in standard errors: about 1 where only the measurements scatter. */
  readonly rmsResidual: number | null;
  /** Facts that give a value, not only a side or a peak. */
  readonly values: number;
  /** Mean and root mean square of model less measured as a share of the yield, over those. */
  readonly biasFraction: number | null;
  readonly rmsFraction: number | null;
  /** Facts inside the model's band, of those for which it has one. */
  readonly inBand: number;
  readonly banded: number;
  /** The one factor of its clock that suits all facts of over-ageing and of peak times best. */
  readonly clock: ClockFactor | null;
}

/** Adds up rows of `modelTrust`. */
export function trustSummary(rows: readonly TrustRow[]): TrustSummary {
  const residuals = rows.flatMap(({ residual }) => (residual === null ? [] : [residual]));
  const misses = rows.flatMap(({ fact, nominal }) =>
    fact.kind === 'value' && nominal !== null
      ? [(nominal - fact.value) / (fact.temper === undefined ? fact.value : 1)]
      : [],
  );
  const bands = rows.filter(({ insideBand }) => insideBand !== null);
  return {
    facts: rows.length,
    fitted: rows.filter(({ fitted }) => fitted).length,
    outside: rows.filter(({ remarks }) => remarks.length > 0).length,
    withinDoubt: residuals.filter((residual) => Math.abs(residual) <= 2).length,
    rmsResidual: rootMeanSquare(residuals),
    values: misses.length,
    biasFraction: misses.length > 0 ? misses.reduce((sum, miss) => sum + miss, 0) / misses.length : null,
    rmsFraction: rootMeanSquare(misses),
    inBand: bands.filter(({ insideBand }) => insideBand).length,
    banded: bands.length,
    clock: bestStretch(rows.flatMap(({ squares }) => (squares ? [squares] : []))),
  };
}

/** Rows by what they have in common, in the order in which it first occurs. */
export function groupTrust(
  rows: readonly TrustRow[],
  by: (row: TrustRow) => string,
): ReadonlyMap<string, TrustRow[]> {
  const groups = new Map<string, TrustRow[]>();
  for (const row of rows) {
    const key = by(row);
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return groups;
}

const rootMeanSquare = (values: readonly number[]): number | null =>
  values.length > 0 ? Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length) : null;
