import { median } from '../columns/columnSample';
import type { Reading } from '../reading';
import type { ChannelData } from './channelData';
import { ABSENT, codeOf } from './faultCodes';

const MISSING = codeOf('missing field');
const LEAST_READINGS = 5;
/** Share of the readings that must come after the usual number of rows. */
const REGULAR_SHARE = 0.9;

/**
 * Recognises channels that are logged more seldom than the rows come: a reading every so many rows and empty
 * fields between. There no reading was due, so none is missing. Returns for each channel every how many rows it
 * has a reading.
 */
export function sparseChannels(
  channels: readonly Pick<ChannelData, 'name' | 'marks'>[],
  reading: Reading,
): number[] {
  return channels.map(({ name, marks }) => {
    const { notes } = reading;
    const every = usualSpacing(marks);
    if (every === 1) return 1;
    let last = -1;
    for (let i = 0; i < marks.length; i++) {
      if (marks[i] === MISSING || marks[i] === ABSENT) continue;
      if (i - last <= every) marks.fill(ABSENT, last + 1, i);
      last = i;
    }
    if (marks.length - last <= every) marks.fill(ABSENT, last + 1);
    notes.push(
      `"${name}" has a reading every ${every} rows; the empty fields between are none that are missing.`,
    );
    return every;
  });
}

/** Middle number of rows from one reading of a channel to its next; 1 for one that has hardly any. */
export function rowsBetween(marks: Uint8Array): number {
  if (!marks.includes(ABSENT)) return 1;
  const steps: number[] = [];
  let last = -1;
  for (let i = 0; i < marks.length; i++) {
    if (marks[i] === ABSENT) continue;
    if (last >= 0) steps.push(i - last);
    last = i;
  }
  return steps.length === 0 ? 1 : median(steps);
}

function usualSpacing(marks: Uint8Array): number {
  // Nearly every log has its first fields filled; only a long look at the others is dear.
  if (!marks.subarray(0, 100).includes(MISSING)) return 1;
  const counts = new Map<number, number>();
  let last = -1;
  let readings = 0;
  for (let i = 0; i < marks.length; i++) {
    if (marks[i] === MISSING || marks[i] === ABSENT) continue;
    if (last >= 0) counts.set(i - last, (counts.get(i - last) ?? 0) + 1);
    readings++;
    last = i;
  }
  const [every, times] = [...counts].reduce((best, next) => (next[1] > best[1] ? next : best), [1, 0]);
  return readings >= LEAST_READINGS && times >= REGULAR_SHARE * (readings - 1) ? every : 1;
}
