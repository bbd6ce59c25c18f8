import { type Judged, judged } from '../quantity';
import { weightedQuantiles } from '../statistics';

/** Median with the 5 and 95 % lines of draws, by weight. */
export function bandOfDraws(
  values: Float64Array,
  unit: string,
  because: readonly string[],
  weights?: Float64Array,
): Judged {
  const [low, nominal, high] = weightedQuantiles(values, [0.05, 0.5, 0.95], weights) as [
    number,
    number,
    number,
  ];
  return judged(nominal, [low, high], unit, because);
}
