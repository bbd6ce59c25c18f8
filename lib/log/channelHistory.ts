import type { ThermalHistory } from '../history';
import type { ChannelData, Stretch } from './faults/channelData';
import type { GapPolicy } from './gapPolicy';

/** Trusted samples of a channel and the lines they come from. */
export interface TrustedSamples {
  readonly history: ThermalHistory;
  readonly rows: Uint32Array;
}

/** The samples of a channel without its readings. */
type SampleAxis = Pick<ThermalHistory, 'timeS' | 'gapAfter'> & Pick<TrustedSamples, 'rows'>;

/**
 * Makes histories of channels: trusted samples in order, stretches left out longer than the gap limit marked.
 * Channels that trust the same rows, or all of them, share their times and rows, and readings are moved together
 * in place, so that a long log takes little memory.
 */
export function channelHistories(
  channels: readonly ChannelData[],
  trusted: readonly (readonly Stretch[])[],
  timeS: Float64Array,
  rows: Uint32Array,
  gaps: GapPolicy,
): TrustedSamples[] {
  const axes: SampleAxis[] = [];
  channels.forEach((channel, k) => {
    const [first] = trusted[k]!;
    const isWhole = first?.from === 0 && first.to === timeS.length - 1 && channel.breaks.size === 0;
    const like = channels.findIndex(
      (other, o) => o < k && isAlike(channel, other) && areSame(trusted[k]!, trusted[o]!),
    );
    axes.push(
      isWhole
        ? { timeS, rows, gapAfter: gaps.afterRow }
        : (axes[like] ?? axisOf(channel, trusted[k]!, timeS, rows, gaps)),
    );
  });
  return channels.map(({ tempC }, k) => {
    const { timeS: ownTimeS, rows: ownRows, gapAfter } = axes[k]!;
    return { history: history(ownTimeS, together(tempC, trusted[k]!), gapAfter!), rows: ownRows };
  });
}

const isAlike = (a: ChannelData, b: ChannelData) =>
  a.every === b.every && a.breaks.size === 0 && b.breaks.size === 0;

const areSame = (a: readonly Stretch[], b: readonly Stretch[]) =>
  a.length === b.length && a.every(({ from, to }, i) => from === b[i]!.from && to === b[i]!.to);

/** Moves the readings of stretches to the front. */
function together(tempC: Float64Array, stretches: readonly Stretch[]): Float64Array {
  let k = 0;
  for (const { from, to } of stretches) {
    if (k < from) tempC.copyWithin(k, from, to + 1);
    k += to - from + 1;
  }
  return tempC.subarray(0, k);
}

function axisOf(
  { breaks, every }: ChannelData,
  stretches: readonly Stretch[],
  timeS: Float64Array,
  rows: Uint32Array,
  gaps: GapPolicy,
): SampleAxis {
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
    k += to - from + 1;
    last = to;
  }
  return { timeS: ownTimeS, rows: ownRows, gapAfter: Uint32Array.from(gapAfter) };
}

function history(timeS: Float64Array, tempC: Float64Array, gapAfter: Uint32Array): ThermalHistory {
  return gapAfter.length > 0 ? { timeS, tempC, gapAfter } : { timeS, tempC };
}
