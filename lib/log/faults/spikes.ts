import type { ChannelData, Limits } from './channelData';
import { codeOf } from './faultCodes';
import { localSteps } from './localSteps';
import { at, rowAt, STEEP_C, spanS, type Trace } from './trace';

const SPIKE = codeOf('spike');
/** So many times a quiet step around it makes a spike stand out; about 8 sigma of white noise (derived). */
const STANDS_OUT = 15;
/** A spike comes back to where it was within this share of its height: heat in metal leaves slowly. */
const RETURNS = 0.1;
/** Moving on outside by this share of the height, in the same direction, makes it a peak. */
const GOES_ON = 0.4;
/** With rows further apart than this metal can warm and cool between them, s. */
const SLOW_ROWS_S = 15;

/**
 * Marks one or two readings that jump away and back, as when an arc starts: faster than the rate limit both
 * ways; or, with rows at most 15 s apart, standing out from the steps around and returning to the trend. A
 * weld's own peak rises steeply but never falls back at once (cooling estimates stay under 50 K/s; thin-plate
 * moving-source formula, derived), so it is neither. Returns whether any was
 * found: spikes close together come to light one after the other.
 */
export function markSpikes({ marks }: ChannelData, trace: Trace, { maxRateCPerS }: Limits): boolean {
  let marked = -1;
  let beforeMarked = -1;
  for (const j of trace.steep) {
    if (j <= marked) continue;
    const before = j - 1 === marked ? beforeMarked : j - 1;
    const width = [1, 2].find((w) => isSpike(trace, before, j, j + w - 1, maxRateCPerS));
    if (width === undefined) continue;
    beforeMarked = before;
    marked = j + width - 1;
    for (let k = j; k <= marked; k++) marks[rowAt(trace, k)] = SPIKE;
  }
  return marked >= 0;
}

/** Do the readings at positions [from, to] stand out from the one at `before` and the one after them? */
function isSpike(trace: Trace, before: number, from: number, to: number, maxRateCPerS: number): boolean {
  const after = to + 1;
  if (before < 0 || after >= trace.count) return false;
  const stepIn = at(trace, from) - at(trace, before);
  const stepOut = at(trace, after) - at(trace, to);
  if (stepIn * stepOut >= 0) return false;
  const height = Math.min(Math.abs(stepIn), Math.abs(stepOut));
  if (height < STEEP_C) return false;
  const { trend, size } = localSteps(trace, from, to);
  if (height < STANDS_OUT * size) return false;
  const inS = spanS(trace, before, from);
  const outS = spanS(trace, to, after);
  if (Math.abs(stepIn) > maxRateCPerS * inS && Math.abs(stepOut) > maxRateCPerS * outS) return true;
  if (inS > SLOW_ROWS_S || outS > SLOW_ROWS_S) return false;
  // On a steep but real peak the trace moves on, over two steps, the way it comes in and goes out.
  const goesOn = (outside: number, step: number) =>
    outside * step > 0 && Math.abs(outside) > GOES_ON * height;
  if (goesOn(at(trace, before) - at(trace, Math.max(0, before - 2)), stepIn)) return false;
  if (goesOn(at(trace, Math.min(trace.count - 1, after + 2)) - at(trace, after), stepOut)) return false;
  const missed = at(trace, after) - at(trace, before) - trend * (after - before);
  return Math.abs(missed) <= Math.max(RETURNS * height, 6 * size);
}
