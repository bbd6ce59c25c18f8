import { median } from 'simple-statistics';
import type { ThermalHistory } from '../../history';

/** Last readings of a probe that tell how often it reads. */
const LOOKED_AT = 50;
/** A reading late by half a step is missing. */
const LATE_STEPS = 1.5;

/** Does a probe stop before the log does: was a reading due, by its own steps, that never came? */
export function stopsEarly({ timeS }: ThermalHistory, spanS: readonly [number, number]): boolean {
  const restS = spanS[1] - timeS[timeS.length - 1]!;
  if (restS <= 0) return false;
  const lately = Array.from(timeS.subarray(-LOOKED_AT));
  const steps = lately.slice(1).map((t, i) => t - lately[i]!);
  return steps.length === 0 || restS > LATE_STEPS * median(steps);
}
