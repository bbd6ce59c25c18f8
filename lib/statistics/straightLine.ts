import { linearRegression } from 'simple-statistics';
import { TemperbookError } from '../quantity';
import { finite, mean } from './summary';

/** A least-squares line with its doubt. */
export interface StraightLine {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeStandardError: number;
  readonly interceptStandardError: number;
  /** Of slope and intercept. */
  readonly correlation: number;
  /** n − 2 in the divisor. */
  readonly residualStandardDeviation: number;
  /** The line at x and its standard error there, the correlation taken into account. */
  at(x: number): { readonly value: number; readonly standardError: number };
}

/**
 * Straight line y = intercept + slope x by least squares, errors in y of one unknown size. Slope and intercept are
 * simple-statistics' (centred sums), the rest from the residuals: u(slope) = s/√S_xx, and at any x
 * u² = s² (1/n + (x − x̄)²/S_xx).
 * Source: JCGM 100:2008 (GUM), Annex H.3. There a thermometer is −0.1712(29) + 0.00218(67)(t − 20) °C off.
 * @throws TemperbookError on unequal lengths, fewer than three points or fewer than two different x.
 */
export function straightLine(x: ArrayLike<number>, y: ArrayLike<number>): StraightLine {
  const xs = finite(x, 3, 'A line with its errors');
  const ys = finite(y, 3, 'A line with its errors');
  const n = xs.length;
  const centre = mean(xs);
  const spread = xs.reduce((sum, value) => sum + (value - centre) ** 2, 0);
  if (ys.length !== n || spread === 0)
    throw new TemperbookError('A line needs as many y as x, and at least two different x', {
      found: `${n} x and ${ys.length} y`,
    });
  const { m: slope, b: intercept } = linearRegression(xs.map((value, i) => [value, ys[i]!]));
  const squares = xs.reduce((sum, value, i) => sum + (ys[i]! - intercept - slope * value) ** 2, 0);
  const s = Math.sqrt(squares / (n - 2));
  const errorAt = (value: number): number => s * Math.sqrt(1 / n + (value - centre) ** 2 / spread);
  return {
    slope,
    intercept,
    slopeStandardError: s / Math.sqrt(spread),
    interceptStandardError: errorAt(0),
    correlation: -centre / Math.sqrt(centre ** 2 + spread / n),
    residualStandardDeviation: s,
    at: (value) => ({ value: intercept + slope * value, standardError: errorAt(value) }),
  };
}
