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
  // An imported name is looked up at every use; here that would take as long as the rest.
  const trusted = TRUSTED;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let lowRun = 0;
  let highRun = 0;
  let run = 0;
  let rise = 0;
  let fall = 0;
  let last = Number.NaN;
  for (let i = 0; i < tempC.length; i++) {
    if (marks[i] !== trusted) continue;
    const value = tempC[i]!;
    const step = value - last;
    run = step === 0 ? run + 1 : 1;
    if (step > rise) rise = step;
    else if (step < fall) fall = step;
    if (value <= low) {
      if (value < low) lowRun = 0;
      if (run > lowRun) lowRun = run;
      low = value;
    }
    if (value >= high) {
      if (value > high) highRun = 0;
      if (run > highRun) highRun = run;
      high = value;
    }
    last = value;
  }
  return { low, high, lowRun, highRun, largestStep: Math.max(rise, -fall) };
}
