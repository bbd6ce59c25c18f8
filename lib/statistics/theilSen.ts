import { median } from 'simple-statistics';
import { TemperbookError } from '../quantity';
import { normalQuantile } from './normalDistribution';
import { finite } from './summary';

/** A straight line through the middle of all slopes between two points. */
export interface RobustLine {
  readonly slope: number;
  readonly intercept: number;
  /** Interval of the slope at the stated confidence. */
  readonly slopeInterval: readonly [number, number];
}

/**
 * Theil–Sen line: the slope is the median of the slopes of all pairs of points, the intercept the median of
 * y − slope x; up to 29 % of the points may be wild. The interval counts ranks: C = z √(n (n−1)(2n+5)/18) of the N slopes
 * lie within it. Pairs of equal x say nothing and are left out. simple-statistics gives the median; it has no
 * robust line. Source: Sen, JASA 63 (1968) 1379; the variance is that of Kendall's S without ties.
 * @throws TemperbookError on unequal lengths, or fewer than two different x.
 */
export function theilSen(x: ArrayLike<number>, y: ArrayLike<number>, confidence = 0.95): RobustLine {
  const xs = finite(x, 2, 'A line');
  const ys = finite(y, 2, 'A line');
  if (xs.length !== ys.length)
    throw new TemperbookError('A line needs as many y as x', { found: `${xs.length} x and ${ys.length} y` });
  const slopes: number[] = [];
  for (let i = 0; i < xs.length; i++)
    for (let j = i + 1; j < xs.length; j++)
      if (xs[j] !== xs[i]) slopes.push((ys[j]! - ys[i]!) / (xs[j]! - xs[i]!));
  if (slopes.length === 0)
    throw new TemperbookError('A line needs at least two different x', {
      found: `${xs.length} points at x = ${xs[0]}`,
    });
  slopes.sort((a, b) => a - b);
  const n = xs.length;
  const within = normalQuantile((1 + confidence) / 2) * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const outside = Math.max(0, Math.round((slopes.length - within) / 2) - 1);
  const slope = median(slopes);
  return {
    slope,
    intercept: median(ys.map((value, i) => value - slope * xs[i]!)),
    slopeInterval: [slopes[outside]!, slopes[slopes.length - 1 - outside]!],
  };
}
