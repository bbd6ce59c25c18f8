import { formatTemp, formatTempSpan } from '../../quantity';
import type { ChannelData } from './channelData';
import { codeOf } from './faultCodes';

const FROZEN = codeOf('frozen');
const LEAST_ROWS = 20;
/** Held at a value this far above its own start: cold metal far from an arc may rightly not move, K. */
const ABOVE_START_C = 25;
/** While every other channel moves this much, K. */
const OTHERS_MOVE_C = 30;
/** The frozen run is so many times longer than any other run of equal readings. */
const LONGER_THAN_OTHERS = 8;

interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * Marks stretches in which a hot channel shows one exact value for long while all others move: a channel whose
 * converter, link or display has stopped. Not the whole of a channel, which is a dead one.
 */
export function markFrozen(channels: readonly ChannelData[]): void {
  if (channels.length < 2) return;
  for (const own of channels) {
    if (!mayHaveRun(own.tempC)) continue;
    const { runs, longestOther } = equalRuns(own);
    for (const { from, to } of runs) {
      if (to - from + 1 < LONGER_THAN_OTHERS * longestOther) continue;
      const others = channels.filter((channel) => channel !== own).map((channel) => swing(channel, from, to));
      if (!others.every((moved) => moved >= OTHERS_MOVE_C)) continue;
      own.marks.fill(FROZEN, from + 1, to + 1);
      own.remarks.set(
        'frozen',
        `the reading stays at exactly ${formatTemp(own.tempC[from]!, 1)} while the others move by ${formatTempSpan(Math.min(...others))} or more: the channel has stopped measuring`,
      );
    }
  }
}

/** A run of 20 covers two rows nine apart that stand at tens; few traces have even one such pair. */
function mayHaveRun(tempC: Float64Array): boolean {
  for (let i = 0; i + 9 < tempC.length; i += 10)
    if (tempC[i] === tempC[i + 9] && tempC[i] === tempC[i + 4] && tempC[i] === tempC[i + 5]) return true;
  return false;
}

function equalRuns({ tempC, marks }: ChannelData): { runs: Run[]; longestOther: number } {
  const first = marks.indexOf(0);
  const runs: Run[] = [];
  let longestOther = 1;
  let from = -1;
  for (let i = 0; i <= tempC.length; i++) {
    if (from >= 0 && i < tempC.length && marks[i] === 0 && tempC[i] === tempC[from]) continue;
    if (from >= 0) {
      const isLong = i - from >= LEAST_ROWS && tempC[from]! - tempC[first]! >= ABOVE_START_C;
      if (isLong) runs.push({ from, to: i - 1 });
      else if (tempC[from]! - tempC[first]! >= ABOVE_START_C) longestOther = Math.max(longestOther, i - from);
    }
    from = i < tempC.length && marks[i] === 0 ? i : -1;
  }
  return { runs, longestOther };
}

/** How far a channel moves in rows [from, to], K. */
function swing({ tempC, marks }: ChannelData, from: number, to: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = from; i <= to; i++) {
    if (marks[i] !== 0) continue;
    low = Math.min(low, tempC[i]!);
    high = Math.max(high, tempC[i]!);
  }
  return high >= low ? high - low : 0;
}
