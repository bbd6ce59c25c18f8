import { STRETCHES } from './stretchedAnswers';

/**
 * How many times longer than the metal a model needs: above 1 it is too slow. An end is `null` where the facts leave
 * it open or it lies beyond a factor of 32, the middle also where the fact only tells a side.
 */
export interface ClockFactor {
  readonly low: number | null;
  readonly nominal: number | null;
  readonly high: number | null;
}

/** The stretch at which a line reaches a value, the one nearest to 1 where there are several; `null` without. */
export function stretchTo(
  line: Float64Array,
  value: number,
  stretches: Float64Array = STRETCHES,
): number | null {
  let best: number | null = null;
  for (let k = 1; k < line.length; k++) {
    const [a, b] = [line[k - 1]! - value, line[k]! - value];
    if (a * b > 0 || a === b) continue;
    const stretch = stretches[k - 1]! * (stretches[k]! / stretches[k - 1]!) ** (a / (a - b));
    if (best === null || Math.abs(Math.log(stretch)) < Math.abs(Math.log(best))) best = stretch;
  }
  return best;
}

/** The stretch at which a line is highest, by a parabola through the three highest points; `null` at an end. */
export function stretchToPeak(line: Float64Array): number | null {
  let top = 0;
  for (let k = 1; k < line.length; k++) if (line[k]! > line[top]!) top = k;
  if (top === 0 || top === line.length - 1) return null;
  const [before, at, after] = [line[top - 1]!, line[top]!, line[top + 1]!];
  const shift = (before - after) / (2 * (before - 2 * at + after));
  return STRETCHES[top]! * (STRETCHES[top + 1]! / STRETCHES[top]!) ** shift;
}

/**
 * The one stretch that fits several facts best: least sum of squared residuals, with the range in which the sum is
 * within 1 of the least (one standard error) and its middle. `null` without facts; an end is open where the range
 * runs beyond a factor of 32, and then there is no middle.
 */
export function bestStretch(squares: readonly Float64Array[]): ClockFactor | null {
  if (squares.length === 0) return null;
  const sums = STRETCHES.map((_, k) => squares.reduce((sum, row) => sum + row[k]!, 0));
  let best = 0;
  sums.forEach((sum, k) => {
    if (sum < sums[best]!) best = k;
  });
  const within = (k: number): boolean => sums[k]! <= sums[best]! + 1;
  let [low, high] = [best, best];
  while (low > 0 && within(low - 1)) low--;
  while (high < sums.length - 1 && within(high + 1)) high++;
  const last = STRETCHES.length - 1;
  return {
    low: low === 0 ? null : STRETCHES[low]!,
    nominal: low === 0 || high === last ? null : Math.sqrt(STRETCHES[low]! * STRETCHES[high]!),
    high: high === last ? null : STRETCHES[high]!,
  };
}
