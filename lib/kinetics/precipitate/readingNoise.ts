/** Fewer readings say nothing of their noise: a plan or a soak has none. */
const FEWEST = 100;
/** Readings looked at; more would not change the median. */
const MOST = 2000;
/** The median of |normal noise| over its standard deviation. */
const MEDIAN_SHARE = 0.6745;

/**
 * Standard deviation of the noise of evenly taken readings, K, from the median of their second differences:
 * |T₋ − 2T + T₊| is √6 times that of one reading, and the median does not see the few sharp turns of a weld.
 * 0 for fewer than 100 readings.
 */
export function readingNoiseK(tempC: Float64Array): number {
  if (tempC.length < FEWEST) return 0;
  const stride = Math.max(1, Math.floor(tempC.length / MOST));
  const count = Math.floor((tempC.length - 2) / stride);
  const bends = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = 1 + k * stride;
    bends[k] = Math.abs(tempC[i - 1]! - 2 * tempC[i]! + tempC[i + 1]!);
  }
  bends.sort();
  return bends[count >> 1]! / (MEDIAN_SHARE * Math.sqrt(6));
}
