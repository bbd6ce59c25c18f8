import type { Pass } from '../../exposure';
import { type ThermalHistory, thermalHistory } from '../../history';

/**
 * Log clock against model clock: one offset per pass, for a welder restarts by hand and the foot of a rise is read
 * to a sample or two, while a steep flank makes 20 °C of a second. Offsets change in the quiet shortly before a pass.
 */
export interface PassClock {
  /** Log time from which offset k holds, s; the first from the beginning. */
  readonly holdsFromS: readonly number[];
}

/** A clock for the passes of a log; one offset where there is none or one. */
export function passClock(passes: readonly Pass[]): PassClock {
  return {
    holdsFromS: [
      -Infinity,
      ...passes.slice(1).map((pass, k) => pass.startS - 0.1 * (pass.startS - passes[k]!.peakS)),
    ],
  };
}

/** Offsets, log time less model time, that bring the passes of a prediction under those of the log. */
export function offsetsFromPasses(logged: readonly Pass[], predicted: readonly Pass[]): number[] {
  const first = logged[0] && predicted[0] ? logged[0].startS - predicted[0].startS : 0;
  if (logged.length < 2) return [first];
  return logged.map((pass, k) =>
    predicted.length === logged.length ? pass.startS - predicted[k]!.startS : first,
  );
}

/**
 * The passes as far apart as the fitted offsets say they were, rather than as their feet were read; the first stays.
 */
export function retimed(passes: readonly Pass[], offsetsS: ArrayLike<number>): Pass[] {
  return passes.map((pass, k) => ({ ...pass, startS: pass.startS + offsetsS[k]! - offsetsS[0]! }));
}

/** Offsets that still hold after the model has moved its passes: what it moved by is no longer to be made up for. */
export function offsetsAfter(
  offsetsS: ArrayLike<number>,
  before: readonly Pass[],
  after: readonly Pass[],
): number[] {
  const offsets = Array.from(offsetsS);
  if (before.length !== offsets.length || after.length !== offsets.length) return offsets;
  return offsets.map((offset, k) => offset - (after[k]!.startS - before[k]!.startS));
}

/** Model time of a log time. */
export function modelTime({ holdsFromS }: PassClock, offsetsS: ArrayLike<number>, logS: number): number {
  let k = holdsFromS.length - 1;
  while (logS < holdsFromS[k]!) k--;
  return logS - offsetsS[k]!;
}

/** A prediction set on the log's clock; where an offset grows smaller, what would overlap is left out. */
export function onLogClock(
  { holdsFromS }: PassClock,
  offsetsS: ArrayLike<number>,
  { timeS, tempC }: ThermalHistory,
): ThermalHistory {
  const times: number[] = [];
  const temps: number[] = [];
  for (let k = 0; k < holdsFromS.length; k++)
    for (let i = 0; i < timeS.length; i++) {
      const t = timeS[i]! + offsetsS[k]!;
      const inWindow = t >= holdsFromS[k]! && t < (holdsFromS[k + 1] ?? Infinity);
      if (!inWindow || t <= (times.at(-1) ?? -Infinity)) continue;
      times.push(t);
      temps.push(tempC[i]!);
    }
  return thermalHistory(times, temps);
}
