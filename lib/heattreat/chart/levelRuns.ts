import type { ThermalHistory } from '../../history';

/** A stretch of time a sensor spent nearest to one level of the schedule. */
export interface LevelRun {
  readonly level: number;
  readonly fromS: number;
  readonly toS: number;
}

/** A sensor must pass the middle between two levels by this much to change levels, K: noise does not. */
const HYSTERESIS_K = 5;

/**
 * Which level each part of a history is nearest to. `levelsC` ascend; the first is room temperature. Times are
 * crossings on the straight lines between samples.
 */
export function levelRuns({ timeS, tempC }: ThermalHistory, levelsC: readonly number[]): LevelRun[] {
  const middles = levelsC.slice(1).map((c, k) => (c + levelsC[k]!) / 2);
  const runs: LevelRun[] = [];
  let level = middles.findIndex((c) => tempC[0]! < c);
  if (level < 0) level = middles.length;
  let fromS = timeS[0]!;
  const close = (atS: number, next: number): void => {
    runs.push({ level, fromS, toS: atS });
    fromS = atS;
    level = next;
  };
  for (let i = 1; i < timeS.length; i++) {
    const c = tempC[i]!;
    while (level < middles.length && c > middles[level]! + HYSTERESIS_K)
      close(crossingS(timeS, tempC, i, middles[level]!), level + 1);
    while (level > 0 && c < middles[level - 1]! - HYSTERESIS_K)
      close(crossingS(timeS, tempC, i, middles[level - 1]!), level - 1);
  }
  close(timeS[timeS.length - 1]!, level);
  return runs;
}

/** When the line to sample i passes a temperature, s. */
function crossingS(timeS: Float64Array, tempC: Float64Array, i: number, atC: number): number {
  const before = tempC[i - 1]!;
  const share = before === tempC[i]! ? 1 : (atC - before) / (tempC[i]! - before);
  return timeS[i - 1]! + Math.min(1, Math.max(0, share)) * (timeS[i]! - timeS[i - 1]!);
}
