import { median } from 'simple-statistics';

/** Bends this many places along the trace are looked at: enough for a median. */
const PLACES = 10_000;

/**
 * Standard deviation of the noise of a trace's readings, from their second differences x₋₁ − 2x + x₊₁, whose deviation
 * is √6 times it. The median of |x| of a normal x is 0.6745 of its deviation; unlike the mean it ignores real bends, where
 * these are few. 0 for fewer than three readings. Derived: 1² + 2² + 1² = 6; the quartile of the normal distribution.
 * @example noiseOf(Float64Array.of(1, 2, 3, 4)) // 0
 */
export function noiseOf(readings: Float64Array): number {
  const count = readings.length - 2;
  if (count < 1) return 0;
  const stride = Math.ceil(count / PLACES);
  const bends: number[] = [];
  for (let i = 1; i <= count; i += stride)
    bends.push(Math.abs(readings[i - 1]! - 2 * readings[i]! + readings[i + 1]!));
  return median(bends) / (0.6745 * Math.sqrt(6));
}
