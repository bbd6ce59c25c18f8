import type { ThermalHistory } from '../history';
import type { ChannelData, Stretch } from './faults/channelData';
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
  trusted: readonly (readonly Stretch[])[],
  timeS: Float64Array,
  rows: Uint32Array,
  gaps: GapPolicy,
): TrustedSamples[] {
  return channels.map((channel, k) => {
    const [first] = trusted[k]!;
    const isWhole = first?.from === 0 && first.to === timeS.length - 1 && channel.breaks.size === 0;
    return isWhole
      ? { history: history(timeS, channel.tempC, gaps.afterRow), rows }
      : compact(channel, trusted[k]!, timeS, rows, gaps);
  });
}

function compact(
  { tempC, breaks, every }: ChannelData,
  stretches: readonly Stretch[],
  timeS: Float64Array,
  rows: Uint32Array,
  gaps: GapPolicy,
): TrustedSamples {
  const count = stretches.reduce((sum, { from, to }) => sum + to - from + 1, 0);
  const ownTimeS = new Float64Array(count);
  const ownRows = new Uint32Array(count);
  const gapAfter: number[] = [];
  const jumps = [...breaks].sort((a, b) => a - b);
  let k = 0;
  let last = -1;
  let gap = 0;
  let jump = 0;
  for (const { from, to } of stretches) {
    while (jump < jumps.length && jumps[jump]! < last) jump++;
    if (last >= 0 && (jumps[jump]! < from || gaps.isGap(last, from, every))) gapAfter.push(k - 1);
    // Inside a stretch only the log's own gaps part it.
    while (gap < gaps.afterRow.length && gaps.afterRow[gap]! < from) gap++;
    for (; gap < gaps.afterRow.length && gaps.afterRow[gap]! < to; gap++)
      gapAfter.push(k + gaps.afterRow[gap]! - from);
    ownTimeS.set(timeS.subarray(from, to + 1), k);
    ownRows.set(rows.subarray(from, to + 1), k);
    tempC.copyWithin(k, from, to + 1);
    k += to - from + 1;
    last = to;
  }
  return { history: history(ownTimeS, tempC.subarray(0, count), Uint32Array.from(gapAfter)), rows: ownRows };
}

function history(timeS: Float64Array, tempC: Float64Array, gapAfter: Uint32Array): ThermalHistory {
  return gapAfter.length > 0 ? { timeS, tempC, gapAfter } : { timeS, tempC };
}
