import type { ChannelData } from './channelData';
import { TRUSTED } from './faultCodes';
import { CHUNK_ROWS } from './traceScan';

/** Smaller steps change no verdict, K. */
export const STEEP_C = 15;

/** The trusted readings of a channel, by position, and where they step: the rest of a trace is soon told. */
export interface Trace {
  readonly tempC: Float64Array;
  readonly timeS: Float64Array;
  /** Row of each position. */
  readonly rows: Uint32Array;
  readonly count: number;
  /** Positions that differ from the one before by `STEEP_C` or more, ascending. */
  readonly steep: readonly number[];
}

/** Lists what is trusted now; `rows` is room for as many rows as the channel has. */
export function traceOf({ tempC, marks }: ChannelData, timeS: Float64Array, rows: Uint32Array): Trace {
  const steep: number[] = [];
  let count = 0;
  for (let from = 0; from < marks.length; from += CHUNK_ROWS)
    count = listRows(tempC, marks, from, Math.min(from + CHUNK_ROWS, marks.length), rows, count, steep);
  return { tempC, timeS, rows, count, steep };
}

function listRows(
  tempC: Float64Array,
  marks: Uint8Array,
  from: number,
  to: number,
  rows: Uint32Array,
  before: number,
  steep: number[],
): number {
  const trusted = TRUSTED;
  const steepC = STEEP_C;
  let count = before;
  let last = before > 0 ? tempC[rows[before - 1]!]! : Number.NaN;
  for (let i = from; i < to; i++) {
    if (marks[i] !== trusted) continue;
    const value = tempC[i]!;
    if (Math.abs(value - last) >= steepC) steep.push(count);
    rows[count++] = i;
    last = value;
  }
  return count;
}

/** Reading at a position, °C. */
export const at = ({ tempC, rows }: Trace, position: number): number => tempC[rows[position]!]!;

/** Time from one position to another, s. */
export const spanS = ({ timeS, rows }: Trace, from: number, to: number): number =>
  timeS[rows[to]!]! - timeS[rows[from]!]!;
