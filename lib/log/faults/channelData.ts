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

/** Indices of the trusted readings. */
export function trustedRows(marks: Uint8Array): Uint32Array {
  const rows = new Uint32Array(marks.length);
  let count = 0;
  for (let i = 0; i < marks.length; i++) if (marks[i] === 0) rows[count++] = i;
  return rows.subarray(0, count);
}

/** Is every reading trusted? */
export const isTrusted = (marks: Uint8Array): boolean => nextMarked(marks, fours(marks), 0) === marks.length;

/** Four marks at a time. */
const fours = ({ buffer, byteOffset, length }: Uint8Array) =>
  new Uint32Array(buffer, byteOffset, length >> 2);

/** First row from `from` on that is not trusted, or how many rows there are. */
function nextMarked(marks: Uint8Array, four: Uint32Array, from: number): number {
  let i = from;
  while (i < marks.length && marks[i] === 0) i += (i & 3) === 0 && four[i >> 2] === 0 ? 4 : 1;
  return i;
}

/** Rows [from, to] of a channel, all trusted. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The longest stretches of trusted readings, in order. */
export function trustedStretches(marks: Uint8Array): Stretch[] {
  const four = fours(marks);
  const stretches: Stretch[] = [];
  for (let from = marks.indexOf(0); from >= 0; ) {
    const end = nextMarked(marks, four, from);
    stretches.push({ from, to: end - 1 });
    from = end < marks.length ? marks.indexOf(0, end) : -1;
  }
  return stretches;
}

/** The stretches between those: rows none of which is trusted. */
export function distrusted(trusted: readonly Stretch[], length: number): Stretch[] {
  const starts = [0, ...trusted.map(({ to }) => to + 1)];
  const ends = [...trusted.map(({ from }) => from - 1), length - 1];
  return starts.map((from, i) => ({ from, to: ends[i]! })).filter(({ from, to }) => from <= to);
}
