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
    const count = trustedRows(marks, rows);
    let found = 0;
    let before = 0;
    for (let j = 1; j + 1 < count; j++) {
      const start = tempC[rows[before]!]!;
      const step = tempC[rows[j]!]! - start;
      if (step > -SMALLEST_SPIKE_C && step < SMALLEST_SPIKE_C) {
        before = j;
        continue;
      }
      const width = isSpike(j, 1) ? 1 : isSpike(j, 2) ? 2 : 0;
      for (let k = 0; k < width; k++) marks[rows[j + k]!] = SPIKE;
      found += width;
      if (width === 0) before = j;
      else j += width - 1;
    }
    if (found === 0) return;

    function isSpike(j: number, width: number): boolean {
      const last = j + width - 1;
      if (last + 1 >= count) return false;
      const at = (k: number) => tempC[rows[k]!]!;
      const stepIn = at(j) - at(before);
      const stepOut = at(last + 1) - at(last);
      if (stepIn * stepOut >= 0) return false;
      const height = Math.min(Math.abs(stepIn), Math.abs(stepOut));
      if (height < SMALLEST_SPIKE_C) return false;
      const { trend, size } = localSteps(tempC, rows, count, j, last);
      if (height < STANDS_OUT * size) return false;
      const inS = timeS[rows[j]!]! - timeS[rows[before]!]!;
      const outS = timeS[rows[last + 1]!]! - timeS[rows[last]!]!;
      if (Math.abs(stepIn) > maxRateCPerS * inS && Math.abs(stepOut) > maxRateCPerS * outS) return true;
      if (inS > SLOW_ROWS_S || outS > SLOW_ROWS_S) return false;
      // On a steep but real peak the trace moves on, over two steps, the way it comes in and goes out.
      const goesOn = (outside: number, step: number) =>
        outside * step > 0 && Math.abs(outside) > GOES_ON * height;
      if (goesOn(at(before) - at(Math.max(0, before - 2)), stepIn)) return false;
      if (goesOn(at(Math.min(count - 1, last + 3)) - at(last + 1), stepOut)) return false;
      const missed = at(last + 1) - at(before) - trend * (last + 1 - before);
      return Math.abs(missed) <= Math.max(RETURNS * height, 6 * size);
    }
  }
}
