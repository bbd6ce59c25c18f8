import { requireNumber, TemperbookError } from '../quantity';
import { normalProbability, normalQuantile } from './normalDistribution';
import { tProbability, tQuantile } from './studentT';

/** A measured value with its standard uncertainty, and how many degrees of freedom stand behind that. */
export interface MeasuredValue {
  readonly value: number;
  readonly standardUncertainty: number;
  /** Absent: the uncertainty is known, the distribution normal. */
  readonly dof?: number;
}

/** Limits of a requirement, one or both. */
export interface ConformityLimits {
  readonly lower?: number;
  readonly upper?: number;
}

/**
 * Probability that the true value meets its limits, given what was measured and nothing else known of the part.
 * P = F((upper − y)/u) − F((lower − y)/u), F normal or Student's t.
 * Source: JCGM 106:2012, clause 7.
 * @throws TemperbookError without a limit, with limits the wrong way round, or u ≤ 0.
 * @example conformityProbability({ value: 509.7, standardUncertainty: 8.6 }, { lower: 490 }) // 0.989
 */
export function conformityProbability(measured: MeasuredValue, { lower, upper }: ConformityLimits): number {
  if (lower === undefined && upper === undefined)
    throw new TemperbookError('Conformity needs a limit', {
      expected: 'a lower limit, an upper limit or both',
    });
  if (lower !== undefined && upper !== undefined && lower >= upper)
    throw new TemperbookError('The limits are the wrong way round', {
      found: `lower ${lower}, upper ${upper}`,
    });
  const below = (limit: number): number => {
    const z =
      (requireNumber(limit, 'Limit') - requireNumber(measured.value, 'Measured value')) /
      requireNumber(measured.standardUncertainty, 'Standard uncertainty', { low: Number.MIN_VALUE });
    return measured.dof === undefined ? normalProbability(z) : tProbability(z, measured.dof);
  };
  return (upper === undefined ? 1 : below(upper)) - (lower === undefined ? 0 : below(lower));
}

/**
 * Width of a guard band in standard uncertainties: a value accepted right at the guarded limit is wrong with
 * the stated risk. Source: JCGM 106:2012, clause 8; normal quantile, or Student's with `dof`.
 *
 * @throws TemperbookError on a risk outside 1e-6 to 0.5.
 * @example guardFactor(0.05) // 1.645
 */
export function guardFactor(risk: number, dof?: number): number {
  requireNumber(risk, 'Risk of accepting wrongly', { low: 1e-6, high: 0.5 });
  return dof === undefined ? -normalQuantile(risk) : tQuantile(1 - risk, dof);
}
