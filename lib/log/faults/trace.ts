import type { ChannelData } from '../channelData';
import { TRUSTED } from '../faultCodes';

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
  const trusted = TRUSTED;
  const steepC = STEEP_C;
  const steep: number[] = [];
  let count = 0;
  let last = Number.NaN;
  for (let i = 0; i < marks.length; i++) {
    if (marks[i] !== trusted) continue;
    const value = tempC[i]!;
    if (Math.abs(value - last) >= steepC) steep.push(count);
    rows[count++] = i;
    last = value;
  }
  return { tempC, timeS, rows, count, steep };
}

/** Reading at a position, °C. */
export const at = ({ tempC, rows }: Trace, position: number): number => tempC[rows[position]!]!;

/** Time from one position to another, s. */
export const spanS = ({ timeS, rows }: Trace, from: number, to: number): number =>
  timeS[rows[to]!]! - timeS[rows[from]!]!;
