import type { FaultKind } from '../faultKind';
import type { TempUnit } from '../readOptions';

/** A channel on its way from numbers to a history. Arrays are as long as the table has rows. */
export interface ChannelData {
  readonly name: string;
  /** The column's name in the file. */
  readonly column: string;
  readonly unit: TempUnit;
  /** A reading is due every so many rows; 1 but for channels logged more seldom than the others. */
  readonly every: number;
  /** °C once `toCelsius` has run; NaN where the file holds no number. */
  readonly tempC: Float64Array;
  /** Fault code of each reading; 0 is trusted. */
  readonly marks: Uint8Array;
  /** What holds for the channel as a whole, said in the reason of its faults of that kind. */
  readonly remarks: Map<FaultKind, string>;
  /** Rows (by index) across which the trace jumps, so that it must not be joined there. */
  readonly breaks: Set<number>;
}

/** Limits in force, defaults filled in. */
export interface Limits {
  readonly lowC: number;
  readonly highC: number;
  readonly maxRateCPerS: number;
}

/** Indices of the trusted readings, in the front of `into`; returns how many. */
export function trustedRows(marks: Uint8Array, into: Uint32Array): number {
  let count = 0;
  for (let i = 0; i < marks.length; i++) if (marks[i] === 0) into[count++] = i;
  return count;
}

/** Is every reading trusted? Looks at four marks at a time. */
export function isTrusted(marks: Uint8Array): boolean {
  const words = new Uint32Array(marks.buffer, marks.byteOffset, marks.length >> 2);
  for (let i = 0; i < words.length; i++) if (words[i] !== 0) return false;
  for (let i = words.length * 4; i < marks.length; i++) if (marks[i] !== 0) return false;
  return true;
}

/** Rows [from, to] of a channel, all trusted. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The longest stretches of trusted readings, in order. */
export function trustedStretches(marks: Uint8Array): Stretch[] {
  if (isTrusted(marks)) return [{ from: 0, to: marks.length - 1 }];
  const stretches: Stretch[] = [];
  for (let from = marks.indexOf(0); from >= 0; ) {
    let to = from;
    while (to + 1 < marks.length && marks[to + 1] === 0) to++;
    stretches.push({ from, to });
    from = marks.indexOf(0, to + 1);
  }
  return stretches;
}

/** The stretches between those: rows none of which is trusted. */
export function distrusted(trusted: readonly Stretch[], length: number): Stretch[] {
  const starts = [0, ...trusted.map(({ to }) => to + 1)];
  const ends = [...trusted.map(({ from }) => from - 1), length - 1];
  return starts.map((from, i) => ({ from, to: ends[i]! })).filter(({ from, to }) => from <= to);
}
