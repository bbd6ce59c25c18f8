import { median } from './columnSample';

/** How many usual intervals may lie between two trusted samples before the time between counts as a gap. */
export const GAP_INTERVALS = 4;
const AROUND = 4;

/** Decides which stretches between samples were not recorded. */
export interface GapPolicy {
  /** Limit at the usual interval, s. */
  readonly limitS: number;
  /** Is the time between rows a < b a gap? */
  readonly isGap: (a: number, b: number) => boolean;
}

/**
 * A stretch is a gap when it is longer than the limit you gave, else than 4 usual intervals of the log and
 * also of the rows around it: a log whose rate changes half-way is not one long gap. A restart of the recording
 * is always a gap.
 */
export function gapPolicy(
  timeS: Float64Array,
  intervalS: number,
  breaks: readonly number[],
  givenS: number | undefined,
): GapPolicy {
  const limitS = givenS ?? GAP_INTERVALS * intervalS;
  // A hair of room for times that are multiples of the limit in decimals but not in binary.
  const limit = limitS * (1 + 1e-9);
  const isBreak = new Set(breaks);
  const usualAround = (a: number, b: number): number => {
    const steps: number[] = [];
    for (let i = Math.max(0, a - AROUND); i < a; i++) steps.push(timeS[i + 1]! - timeS[i]!);
    for (let i = b; i < Math.min(timeS.length - 1, b + AROUND); i++) steps.push(timeS[i + 1]! - timeS[i]!);
    return steps.length === 0 ? intervalS : median(steps);
  };
  return {
    limitS,
    isGap: (a, b) => {
      if (isBreak.size > 0) for (let i = a; i < b; i++) if (isBreak.has(i)) return true;
      const span = timeS[b]! - timeS[a]!;
      if (span <= limit) return false;
      return givenS !== undefined || span > GAP_INTERVALS * usualAround(a, b) * (1 + 1e-9);
    },
  };
}
