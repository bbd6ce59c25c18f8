import type { ThermalHistory } from '../history';
import { type ChannelData, isTrusted } from './channelData';
import { TRUSTED } from './faultCodes';
import type { GapPolicy } from './gapPolicy';

/** Trusted samples of a channel and the lines they come from. */
export interface TrustedSamples {
  readonly history: ThermalHistory;
  readonly rows: Uint32Array;
}

/**
 * Makes histories of channels: trusted samples in order, stretches left out longer than the gap limit marked.
 * A channel with every reading trusted shares its time axis and rows with its like; the others are moved
 * together in place, so that a long log takes little memory.
 */
export function channelHistories(
  channels: readonly ChannelData[],
  timeS: Float64Array,
  rows: Uint32Array,
  gaps: GapPolicy,
): TrustedSamples[] {
  return channels.map((channel) =>
    channel.breaks.size === 0 && isTrusted(channel.marks)
      ? { history: history(timeS, channel.tempC, gaps.afterRow), rows }
      : compact(channel, timeS, rows, gaps),
  );
}

function compact(
  { tempC, marks, breaks }: ChannelData,
  timeS: Float64Array,
  rows: Uint32Array,
  gaps: GapPolicy,
): TrustedSamples {
  const trusted = TRUSTED;
  let count = 0;
  for (let i = 0; i < marks.length; i++) if (marks[i] === trusted) count++;
  const ownTimeS = new Float64Array(count);
  const ownRows = new Uint32Array(count);
  const gapAfter: number[] = [];
  const jumps = [...breaks].sort((a, b) => a - b);
  const { afterRow } = gaps;
  let k = 0;
  let last = -1;
  let gap = 0;
  let jump = 0;
  for (let i = 0; i < marks.length; i++) {
    if (marks[i] !== trusted) continue;
    if (last >= 0) {
      while (gap < afterRow.length && afterRow[gap]! < last) gap++;
      while (jump < jumps.length && jumps[jump]! < last) jump++;
      const isParted = i === last + 1 ? afterRow[gap] === last : jumps[jump]! < i || gaps.isGap(last, i);
      if (isParted) gapAfter.push(k - 1);
    }
    ownTimeS[k] = timeS[i]!;
    ownRows[k] = rows[i]!;
    tempC[k] = tempC[i]!;
    last = i;
    k++;
  }
  return { history: history(ownTimeS, tempC.subarray(0, count), Uint32Array.from(gapAfter)), rows: ownRows };
}

function history(timeS: Float64Array, tempC: Float64Array, gapAfter: Uint32Array): ThermalHistory {
  return gapAfter.length > 0 ? { timeS, tempC, gapAfter } : { timeS, tempC };
}
