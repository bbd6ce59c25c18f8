import { noiseOf } from '../../statistics';

/** Fewer readings say nothing of their noise: a plan or a soak has none. */
const FEWEST = 100;

/** Standard deviation of the noise of evenly taken readings, K (`noiseOf`); 0 for fewer than 100. */
export function readingNoiseK(tempC: Float64Array): number {
  return tempC.length < FEWEST ? 0 : noiseOf(tempC);
}
