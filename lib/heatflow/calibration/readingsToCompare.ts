import type { ThermalHistory } from '../../history';
import { TemperbookError } from '../../quantity';

/** The readings of a channel that a prediction is compared with. */
export interface Readings {
  readonly name: string;
  /** Log time, s. */
  readonly timeS: Float64Array;
  readonly tempC: Float64Array;
}

/**
 * Chooses at most `count` readings of a channel from the stretch that the prediction covers, evenly along the trace:
 * half of a step is time, half is temperature moved, so that a short peak in a long log is not skipped.
 * @throws TemperbookError when the stretch holds fewer than 10.
 */
export function readingsToCompare(
  name: string,
  { timeS, tempC }: ThermalHistory,
  predicted: ThermalHistory,
  offsetsS: readonly number[],
  count: number,
): Readings {
  const from = predicted.timeS[0]! + offsetsS[0]!;
  const to = predicted.timeS.at(-1)! + offsetsS.at(-1)!;
  const covered = Array.from(timeS.keys()).filter((i) => timeS[i]! >= from && timeS[i]! <= to);
  if (covered.length < 10)
    throw new TemperbookError(`Channel "${name}" and the model hardly overlap in time`, {
      found: `${covered.length} readings between ${from.toFixed(1)} and ${to.toFixed(1)} s of the log`,
      expected: 'at least 10',
      remedy: 'Check that the model runs as long as the log, and that the log holds the passes of the plan',
    });
  const chosen = covered.length <= count ? covered : evenly(covered, timeS, tempC, count);
  return {
    name,
    timeS: Float64Array.from(chosen, (i) => timeS[i]!),
    tempC: Float64Array.from(chosen, (i) => tempC[i]!),
  };
}

function evenly(
  covered: readonly number[],
  timeS: Float64Array,
  tempC: Float64Array,
  count: number,
): number[] {
  const length = new Float64Array(covered.length);
  let moved = 0;
  for (let k = 1; k < covered.length; k++) moved += Math.abs(tempC[covered[k]!]! - tempC[covered[k - 1]!]!);
  const span = timeS[covered.at(-1)!]! - timeS[covered[0]!]!;
  for (let k = 1; k < covered.length; k++) {
    const [before, here] = [covered[k - 1]!, covered[k]!];
    const inTime = (timeS[here]! - timeS[before]!) / span;
    const inTemp = moved > 0 ? Math.abs(tempC[here]! - tempC[before]!) / moved : inTime;
    length[k] = length[k - 1]! + (inTime + inTemp) / 2;
  }
  const chosen: number[] = [];
  for (let k = 0; k < covered.length; k++)
    if (length[k]! * (count - 1) >= chosen.length - 1e-9) chosen.push(covered[k]!);
  return chosen;
}
