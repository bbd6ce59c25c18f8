import type { ChannelData } from '../channelData';
import { TRUSTED } from '../faultCodes';

/** What one look at a trace tells: most traces need no closer one. */
export interface TraceScan {
  readonly low: number;
  readonly high: number;
  /** Most samples in a row that show exactly the lowest, and exactly the highest value. */
  readonly lowRun: number;
  readonly highRun: number;
  /** Largest change from one trusted reading to the next. */
  readonly largestStep: number;
}

/** Looks once over the trusted readings of a channel, in whatever unit they are. */
export function scanTrace({ tempC, marks }: ChannelData): TraceScan {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let lowRun = 0;
  let highRun = 0;
  let run = 0;
  let rise = 0;
  let fall = 0;
  let last = Number.NaN;
  for (let i = 0; i < tempC.length; i++) {
    if (marks[i] !== TRUSTED) continue;
    const value = tempC[i]!;
    const step = value - last;
    if (step === 0) run++;
    else run = 1;
    if (step > rise) rise = step;
    else if (step < fall) fall = step;
    if (value <= low) {
      lowRun = value < low ? 1 : Math.max(lowRun, run);
      low = value;
    }
    if (value >= high) {
      highRun = value > high ? 1 : Math.max(highRun, run);
      high = value;
    }
    last = value;
  }
  return { low, high, lowRun, highRun, largestStep: Math.max(rise, -fall) };
}
