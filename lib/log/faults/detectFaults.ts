import type { FaultKind } from '../faultKind';
import type { Reading } from '../reading';
import { type ChannelData, isTrusted, type Limits, trustedStretches } from './channelData';
import { markClamped } from './clamped';
import { FAULT_KINDS, TRUSTED } from './faultCodes';
import { markFrozen } from './frozen';
import { markLetGo } from './letGo';
import { markChatter, markIslands } from './looseJunction';
import { markOddChannels } from './neighbours';
import { markRamps } from './ramps';
import { markSpikes } from './spikes';
import { markSteps } from './steps';
import { markSwapped } from './swapped';
import { STEEP_C, traceOf } from './trace';
import { scanTrace, type TraceScan } from './traceScan';

/**
 * Looks for readings that no part could give, in an order in which each search sees only what the ones before
 * have left: single readings, steps, stretches, whole channels. Readings that are numbers and whose kind of
 * fault you accept are trusted again at the end.
 */
export function detectFaults(
  channels: readonly ChannelData[],
  scans: readonly TraceScan[],
  timeS: Float64Array,
  lines: Uint32Array,
  limits: Limits,
  accept: readonly FaultKind[],
  reading: Reading,
): void {
  markSwapped(channels, scans, lines, reading);
  channels.forEach((channel, k) => {
    const scan = scans[k]!;
    if (scan.largestStep >= STEEP_C) markSteep(channel, timeS, limits);
    const isWhole = isTrusted(channel.marks);
    if (!isWhole) {
      const stretches = trustedStretches(channel.marks);
      markRamps(channel, timeS, stretches);
      markIslands(channel, stretches);
    }
    markClamped(channel, isWhole ? scan : scanTrace(channel));
  });
  markOddChannels(channels);
  markLetGo(channels, timeS);
  markFrozen(channels);
  noteTwins(channels, reading);
  for (const kind of accept) letThrough(channels, kind, reading);
}

/** A second look finds the spikes that others nearby had hidden. */
const SPIKE_LOOKS = 2;

function markSteep(channel: ChannelData, timeS: Float64Array, limits: Limits): void {
  let trace = traceOf(channel, timeS);
  if (markChatter(channel, trace)) trace = traceOf(channel, timeS);
  for (let look = 0; look < SPIKE_LOOKS && markSpikes(channel, trace, limits); look++)
    trace = traceOf(channel, timeS);
  markSteps(channel, trace, limits);
}

/** Two channels equal to the digit are a short or a copy; which one is real cannot be known. */
function noteTwins(channels: readonly ChannelData[], reading: Reading): void {
  const { notes } = reading;
  for (let a = 0; a < channels.length; a++)
    for (let b = a + 1; b < channels.length; b++)
      if (isTwin(channels[a]!.tempC, channels[b]!.tempC))
        notes.push(
          `"${channels[a]!.name}" and "${channels[b]!.name}" are equal to the last digit all along: one may be a copy of the other, or their inputs joined.`,
        );
}

function isTwin(a: Float64Array, b: Float64Array): boolean {
  let moves = 0;
  for (let i = 0; i < a.length; i++) {
    if (a[i] !== b[i] && !(Number.isNaN(a[i]!) && Number.isNaN(b[i]!))) return false;
    if (i > 0 && a[i] !== a[i - 1]) moves++;
  }
  return moves >= 10;
}

function letThrough(channels: readonly ChannelData[], kind: FaultKind, reading: Reading): void {
  const { notes } = reading;
  const code = FAULT_KINDS.indexOf(kind) + 1;
  let count = 0;
  for (const { tempC, marks } of channels)
    for (let i = 0; i < marks.length; i++)
      if (code > 0 && marks[i] === code && tempC[i]! > -273.15 && tempC[i]! < Number.POSITIVE_INFINITY) {
        marks[i] = TRUSTED;
        count++;
      }
  notes.push(
    `${count} reading${count === 1 ? '' : 's'} that look${count === 1 ? 's' : ''} like "${kind}" ${count === 1 ? 'is' : 'are'} kept, as you said.`,
  );
}
