import type { ChannelData } from './channelData';
import { TRUSTED } from './faultCodes';

/** What one look at a trace tells: most traces need no closer one. Infinite when nothing is trusted. */
export interface TraceScan {
  readonly low: number;
  readonly high: number;
  /** Largest change from one trusted reading to the next. */
  readonly largestStep: number;
}

interface Scanning {
  low: number;
  high: number;
  rise: number;
  fall: number;
  last: number;
}

/** Rows looked at at one call: the engine makes its best code of what is called often, not of one long loop. */
export const CHUNK_ROWS = 1024;

/** Looks once over the trusted readings of a channel, in whatever unit they are. */
export function scanTrace({ tempC, marks }: ChannelData): TraceScan {
  const scanning: Scanning = {
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
    ...{ rise: 0, fall: 0, last: Number.NaN },
  };
  for (let from = 0; from < tempC.length; from += CHUNK_ROWS)
    scanRows(tempC, marks, from, Math.min(from + CHUNK_ROWS, tempC.length), scanning);
  const { low, high, rise, fall } = scanning;
  return { low, high, largestStep: Math.max(rise, -fall) };
}

function scanRows(
  tempC: Float64Array,
  marks: Uint8Array,
  from: number,
  to: number,
  scanning: Scanning,
): void {
  // An imported name is looked up at every use; here that would take as long as the rest.
  const trusted = TRUSTED;
  let { low, high, rise, fall, last } = scanning;
  for (let i = from; i < to; i++) {
    if (marks[i] !== trusted) continue;
    const value = tempC[i]!;
    const step = value - last;
    if (step > rise) rise = step;
    else if (step < fall) fall = step;
    if (value < low) low = value;
    if (value > high) high = value;
    last = value;
  }
  scanning.low = low;
  scanning.high = high;
  scanning.rise = rise;
  scanning.fall = fall;
  scanning.last = last;
}
