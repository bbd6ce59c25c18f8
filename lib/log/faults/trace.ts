import { type ChannelData, type Stretch, trustedStretches } from './channelData';
import { CHUNK_ROWS } from './traceScan';

/** Smaller steps change no verdict, K. */
export const STEEP_C = 15;

/** The trusted readings of a channel, by position, and where they step: the rest of a trace is soon told. */
export interface Trace {
  readonly tempC: Float64Array;
  readonly timeS: Float64Array;
  readonly stretches: readonly Stretch[];
  /** Position of the first reading of each stretch. */
  readonly starts: readonly number[];
  readonly count: number;
  /** Positions that differ from the one before by `STEEP_C` or more, ascending. */
  readonly steep: readonly number[];
}

/** Lists what is trusted now. */
export function traceOf({ tempC, marks }: ChannelData, timeS: Float64Array): Trace {
  const stretches = trustedStretches(marks);
  const starts: number[] = [];
  const steep: number[] = [];
  let count = 0;
  let last = Number.NaN;
  for (const { from, to } of stretches) {
    starts.push(count);
    if (Math.abs(tempC[from]! - last) >= STEEP_C) steep.push(count);
    for (const row of steepRows(tempC, from, to, STEEP_C)) steep.push(count + row - from);
    count += to - from + 1;
    last = tempC[to]!;
  }
  return { tempC, timeS, stretches, starts, count, steep };
}

/** Rows of a stretch that differ from the one before, in the stretch, by so much or more, ascending. */
export function steepRows(tempC: Float64Array, from: number, to: number, leastC: number): number[] {
  const found: number[] = [];
  for (let start = from + 1; start <= to; start += CHUNK_ROWS)
    listSteep(tempC, start, Math.min(start + CHUNK_ROWS, to + 1), leastC, found);
  return found;
}

function listSteep(tempC: Float64Array, from: number, to: number, leastC: number, found: number[]): void {
  let last = tempC[from - 1]!;
  for (let i = from; i < to; i++) {
    const value = tempC[i]!;
    if (Math.abs(value - last) >= leastC) found.push(i);
    last = value;
  }
}

/** Row of a position. */
export function rowAt({ stretches, starts }: Trace, position: number): number {
  let low = 0;
  let high = starts.length;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if (starts[mid]! <= position) low = mid;
    else high = mid;
  }
  return stretches[low]!.from + position - starts[low]!;
}

/** Reading at a position, °C. */
export const at = (trace: Trace, position: number): number => trace.tempC[rowAt(trace, position)]!;

/** Time from one position to another, s. */
export const spanS = (trace: Trace, from: number, to: number): number =>
  trace.timeS[rowAt(trace, to)]! - trace.timeS[rowAt(trace, from)]!;
