import { median } from './columns/columnSample';

/** How many usual intervals may lie between two trusted samples before the time between counts as a gap. */
export const GAP_INTERVALS = 4;
const AROUND = 4;

/** Decides which stretches between samples were not recorded. */
export interface GapPolicy {
  /** Limit at the usual interval, s. */
  readonly limitS: number;
  /** Rows (by index) after which no row comes for longer than that. */
  readonly afterRow: Uint32Array;
  /** Is the time between rows a < b a gap, for a channel with a reading every so many rows? */
  readonly isGap: (a: number, b: number, every?: number) => boolean;
}

/**
 * A stretch is a gap when it is longer than the limit you gave, else than 4 usual intervals of the log and
 * also of the rows around it: a log whose rate changes half-way is not one long gap. A restart of the recording
 * (`breaks`, ascending) is always a gap.
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
  const isGap = (a: number, b: number, every = 1): boolean => {
    if (hasBetween(breaks, a, b)) return true;
    const span = timeS[b]! - timeS[a]!;
    if (givenS !== undefined) return span > limit;
    return span > limit * every && span > GAP_INTERVALS * every * usualAround(timeS, a, b) * (1 + 1e-9);
  };
  const after: number[] = [];
  for (let i = 0; i + 1 < timeS.length; i++)
    if (timeS[i + 1]! - timeS[i]! > limit || breaks.length > 0) if (isGap(i, i + 1)) after.push(i);
  return { limitS, afterRow: Uint32Array.from(after), isGap };
}

/** Does any of the ascending numbers lie in [a, b)? */
function hasBetween(sorted: readonly number[], a: number, b: number): boolean {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (sorted[mid]! < a) low = mid + 1;
    else high = mid;
  }
  return low < sorted.length && sorted[low]! < b;
}

/** Middle of the steps between the rows before a and after b, s; of the span itself when there are none. */
function usualAround(timeS: Float64Array, a: number, b: number): number {
  const steps: number[] = [];
  for (let i = Math.max(0, a - AROUND); i < a; i++) steps.push(timeS[i + 1]! - timeS[i]!);
  for (let i = b; i < Math.min(timeS.length - 1, b + AROUND); i++) steps.push(timeS[i + 1]! - timeS[i]!);
  return steps.length === 0 ? 0 : median(steps);
}
