import { formatTemp, TemperbookError } from '../../quantity';
import type { Reading } from '../reading';
import { type ChannelData, trustedStretches } from './channelData';
import { codeOf } from './faultCodes';
import { steepRows } from './trace';
import type { TraceScan } from './traceScan';

const SWAPPED = codeOf('swapped');
/** Channels jump when they step by this much, K, and by so many times the steps around. */
const JUMP_C = 20;
const TIMES_AROUND = 6;
const AROUND = 4;
/** A channel goes on where another stopped when it misses it by no more than this share of its own jump. */
const MISS_SHARE = 0.15;
/** °F are read as °C (or back) when all channels jump as 1.8 x + 32 does, to within this and two steps, K. */
const SCALE_MISS_C = 2;
/** Hotter than any shop, °C. */
const HOT_C = 60;

/**
 * Looks for rows in which several channels jump at once. When each then goes on where another one stopped, inputs
 * were swapped or the columns moved: from there on nobody knows which reading is whose, and they are marked.
 * @throws TemperbookError when all jump as they would if the file went over from °C to °F, or back.
 */
export function markSwapped(
  channels: readonly ChannelData[],
  scans: readonly TraceScan[],
  lines: Uint32Array,
  { file, options, notes }: Reading,
): void {
  const places = jumpRows(channels, scans);
  for (const i of places) {
    const jumping = channels.filter((channel) => isJump(channel, i));
    if (jumping.length === 0 || (jumping.length === 1 && !isClean(jumping[0]!, i))) continue;
    const way =
      options.unit === undefined && jumping.length === channels.length ? scaleChange(jumping, i) : '';
    if (way !== '' && (jumping.length > 1 || fallsHot(jumping[0]!, i)))
      throw new TemperbookError('The unit of the temperatures changes in mid-file', {
        file,
        row: lines[i]!,
        found: `${jumping.map(({ name, tempC }) => `"${name}" ${tempC[i - 1]!.toFixed(1)} and then ${tempC[i]!.toFixed(1)}`).join(', ')}: ${way}`,
        remedy:
          'Cut the file where the unit changes and read the parts one by one, each with its option unit; if the part did jump so, give option unit for the whole file',
      });
    if (way !== '')
      notes.push(
        `Warning: in row ${lines[i]} "${jumping[0]!.name}" jumps from ${formatTemp(jumping[0]!.tempC[i - 1]!, 1)} to ${formatTemp(jumping[0]!.tempC[i]!, 1)}, as it would if the file went over ${way}.`,
      );
    markMoved(jumping, channels, i, lines);
  }
}

/** Marks channels that go on where others stopped, all that follows of them. */
function markMoved(
  jumping: readonly ChannelData[],
  channels: readonly ChannelData[],
  i: number,
  lines: Uint32Array,
): void {
  if (jumping.length < 2) return;
  const rises = jumping.filter(({ tempC }) => tempC[i]! > tempC[i - 1]!).length;
  if (rises === 0 || rises === jumping.length) return;
  const moved = jumping.flatMap((own) => {
    const allowed = MISS_SHARE * Math.abs(own.tempC[i]! - own.tempC[i - 1]!);
    const before = channels.find(
      (other) => other !== own && Math.abs(own.tempC[i]! - other.tempC[i - 1]!) <= allowed,
    );
    return before ? [{ own, before }] : [];
  });
  if (moved.length < 2 || moved.length * 3 < jumping.length * 2) return;
  for (const { own, before } of moved) {
    for (let k = i; k < own.marks.length; k++) if (own.marks[k] === 0) own.marks[k] = SWAPPED;
    own.remarks.set(
      'swapped',
      `from row ${lines[i]} on the channel goes on where "${before.name}" stopped, and others likewise: inputs were swapped or the columns moved, and which reading is whose is unknown`,
    );
  }
}

/** Rows at which any channel steps far enough to be looked at; few, or none at all. */
function jumpRows(channels: readonly ChannelData[], scans: readonly TraceScan[]): readonly number[] {
  const found = new Set<number>();
  channels.forEach((channel, k) => {
    if (!(scans[k]!.largestStep >= JUMP_C)) return;
    for (const { from, to } of trustedStretches(channel.marks))
      for (const row of steepRows(channel.tempC, from, to, JUMP_C)) found.add(row);
  });
  return [...found].sort((a, b) => a - b);
}

/** A step far larger than those around it on both sides, to readings that stay. */
function isJump({ tempC, marks }: ChannelData, i: number): boolean {
  if (i < 1 || i + 1 >= tempC.length || marks[i] !== 0 || marks[i - 1] !== 0) return false;
  const step = Math.abs(tempC[i]! - tempC[i - 1]!);
  if (!(step >= JUMP_C)) return false;
  for (let k = Math.max(1, i - AROUND); k <= Math.min(tempC.length - 1, i + AROUND); k++) {
    if (k === i || marks[k] !== 0 || marks[k - 1] !== 0) continue;
    if (Math.abs(tempC[k]! - tempC[k - 1]!) * TIMES_AROUND > step) return false;
  }
  return true;
}

/** A jump with nothing wrong around it, from quiet readings to quiet ones; what a lone channel does otherwise says little. */
function isClean({ tempC, marks }: ChannelData, i: number): boolean {
  for (let k = Math.max(0, i - AROUND); k <= Math.min(tempC.length - 1, i + AROUND); k++)
    if (marks[k] !== 0) return false;
  return Math.abs(tempC[i + 1]! - tempC[i]!) <= SCALE_MISS_C;
}

/** A fall from one row to the next that ends hot: neither metal nor a probe that lets go does that. */
const fallsHot = ({ tempC }: ChannelData, i: number) => tempC[i]! < tempC[i - 1]! && tempC[i]! >= HOT_C;

function scaleChange(jumping: readonly ChannelData[], i: number): string {
  const isAll = (to: (tempC: number) => number) =>
    jumping.every(({ tempC }) => {
      const onward = 2 * Math.abs(tempC[i + 1]! - tempC[i]!);
      return Math.abs(to(tempC[i - 1]!) - tempC[i]!) <= SCALE_MISS_C + onward;
    });
  if (isAll((tempC) => tempC * 1.8 + 32)) return 'from °C to °F';
  return isAll((tempC) => (tempC - 32) / 1.8) ? 'from °F to °C' : '';
}
