import { type ChannelData, type Limits, trustedRows } from '../channelData';
import { codeOf } from '../faultCodes';
import { localSteps } from './localSteps';

const SPIKE = codeOf('spike');
/** Smaller spikes change no verdict, K. */
export const SMALLEST_SPIKE_C = 15;
/** So many times a quiet step around it makes a spike stand out; about 8 sigma of white noise (derived). */
const STANDS_OUT = 15;
/** A spike comes back to where it was within this share of its height: heat in metal leaves slowly. */
const RETURNS = 0.1;
/** Moving on outside by this share of the height, in the same direction, makes it a peak. */
const GOES_ON = 0.4;
/** With rows further apart than this metal can warm and cool between them, s. */
const SLOW_ROWS_S = 15;
const PASSES = 2;

/**
 * Marks one or two readings that jump away and back, as when an arc starts: faster than the rate limit both
 * ways; or, with rows at most 15 s apart, standing out from the steps around and returning to the trend. A
 * weld's own peak rises steeply but never falls back at once (cooling estimates stay under 50 K/s; thin-plate
 * moving-source formula, derived), so it is neither.
 */
export function markSpikes(
  { tempC, marks }: ChannelData,
  timeS: Float64Array,
  { maxRateCPerS }: Limits,
  rows: Uint32Array,
): void {
  for (let pass = 0; pass < PASSES; pass++) {
    const trace: Trace = { tempC, timeS, rows, count: trustedRows(marks, rows), maxRateCPerS };
    let found = 0;
    let before = 0;
    let last = trace.count > 0 ? tempC[rows[0]!]! : 0;
    for (let j = 1; j + 1 < trace.count; j++) {
      const value = tempC[rows[j]!]!;
      const step = value - last;
      const isSteep = step <= -SMALLEST_SPIKE_C || step >= SMALLEST_SPIKE_C;
      const width = !isSteep
        ? 0
        : isSpike(trace, before, j, j)
          ? 1
          : isSpike(trace, before, j, j + 1)
            ? 2
            : 0;
      if (width === 0) {
        before = j;
        last = value;
        continue;
      }
      for (let k = 0; k < width; k++) marks[rows[j + k]!] = SPIKE;
      found += width;
      j += width - 1;
    }
    if (found === 0) return;
  }
}

/** Trusted readings of a channel, by position. */
interface Trace {
  readonly tempC: Float64Array;
  readonly timeS: Float64Array;
  readonly rows: Uint32Array;
  readonly count: number;
  readonly maxRateCPerS: number;
}

/** Do the readings at positions [from, to] stand out from the one at `before` and the one after them? */
function isSpike(
  { tempC, timeS, rows, count, maxRateCPerS }: Trace,
  before: number,
  from: number,
  to: number,
): boolean {
  const after = to + 1;
  if (after >= count) return false;
  const at = (k: number) => tempC[rows[k]!]!;
  const stepIn = at(from) - at(before);
  const stepOut = at(after) - at(to);
  if (stepIn * stepOut >= 0) return false;
  const height = Math.min(Math.abs(stepIn), Math.abs(stepOut));
  if (height < SMALLEST_SPIKE_C) return false;
  const { trend, size } = localSteps(tempC, rows, count, from, to);
  if (height < STANDS_OUT * size) return false;
  const inS = timeS[rows[from]!]! - timeS[rows[before]!]!;
  const outS = timeS[rows[after]!]! - timeS[rows[to]!]!;
  if (Math.abs(stepIn) > maxRateCPerS * inS && Math.abs(stepOut) > maxRateCPerS * outS) return true;
  if (inS > SLOW_ROWS_S || outS > SLOW_ROWS_S) return false;
  // On a steep but real peak the trace moves on, over two steps, the way it comes in and goes out.
  const goesOn = (outside: number, step: number) =>
    outside * step > 0 && Math.abs(outside) > GOES_ON * height;
  if (goesOn(at(before) - at(Math.max(0, before - 2)), stepIn)) return false;
  if (goesOn(at(Math.min(count - 1, after + 2)) - at(after), stepOut)) return false;
  const missed = at(after) - at(before) - trend * (after - before);
  return Math.abs(missed) <= Math.max(RETURNS * height, 6 * size);
}
