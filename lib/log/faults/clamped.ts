import { formatTemp, formatTempSpan, once } from '../../quantity';
import { type ChannelData, trustedRows } from './channelData';
import { codeOf, TRUSTED } from './faultCodes';
import type { TraceScan } from './traceScan';

const CLAMPED = codeOf('clamped');
/** A trace that hardly moves has no ends to be clamped at, K. */
const LEAST_SWING_C = 20;
/** The bottom of an instrument's range lies above any room, °C. */
const ABOVE_ROOM_C = 50;
/** No shop holds aluminium this hot and this still before the log begins, °C. */
const HOT_START_C = 200;
const BOTTOM_RUN = 20;
const BOTTOM_SHARE = 0.05;
const TOP_RUN = 10;
/** A bottom with noise on it: width of the band, K; rows of one stretch, of all, and their share of the log. */
const FLOOR_C = 0.6;
const FLOOR_RUN = 100;
const FLOOR_ROWS = 500;
const FLOOR_SHARE = 0.2;
/** A first look takes blocks of rows: a stretch of `FLOOR_RUN` holds one whole block, and none more than three times its whole ones. */
const FLOOR_BLOCK = FLOOR_RUN / 2;
/** The clamped run is so many times longer than any other run of equal readings: a quiet plateau is not clamped. */
const LONGER_THAN_OTHERS = 10;
/** Steps of the reading (its last digit) per sample with which a trace runs into a clamp. */
const SHARP_DIGITS = 5;

interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * Marks readings held at the bottom or the top of an instrument's range: one exact value for long, the lowest
 * or highest of the trace, unlike any other run of equal readings. The bottom must lie above room temperature
 * and be reached more than once, or be hotter than any preheat; the top must be run into and left at full
 * slope, as a plateau of metal never is.
 */
export function markClamped(channel: ChannelData, { low, high }: TraceScan): void {
  const { tempC, marks } = channel;
  if (!(high - low >= LEAST_SWING_C) || high <= ABOVE_ROOM_C) return;
  const mayBeLow = low > ABOVE_ROOM_C && hasRun(tempC, marks, low, BOTTOM_RUN);
  const mayBeFloor = low > ABOVE_ROOM_C && hasFloor(tempC, marks, low);
  if (!mayBeLow && !mayBeFloor && !hasRun(tempC, marks, high, TOP_RUN)) return;

  const rows = trustedRows(marks);
  const count = rows.length;
  const at = (j: number) => tempC[rows[j]!]!;
  const lowRuns = mayBeLow ? runsAt(low, BOTTOM_RUN) : [];
  const highRuns = runsAt(high, TOP_RUN);
  // Each takes as long as all else here, and most traces need neither.
  const digit = once(lastDigit);
  const other = once(longestOther);

  const lowCount = sum(lowRuns);
  const isReachedTwice = lowRuns.length > 1;
  if (
    lowRuns.length > 0 &&
    lowCount >= BOTTOM_SHARE * count &&
    (isReachedTwice || low > HOT_START_C) &&
    longest(lowRuns) >= LONGER_THAN_OTHERS * other()
  )
    mark(
      lowRuns,
      `the reading stays at exactly ${formatTemp(low, 1)}, the lowest it ever shows: the bottom of the instrument's range`,
    );
  else if (mayBeFloor) markFloor();
  const sharp = highRuns.filter(isSharp);
  if (sharp.length > 0 && longest(sharp) * 2 >= LONGER_THAN_OTHERS * other())
    mark(
      highRuns,
      `the reading stays at exactly ${formatTemp(high, 1)}, the highest it ever shows, and runs into it at full slope: the top of the instrument's range`,
    );

  /** A bottom with noise on it: long stretches that never leave a narrow band above the lowest value, left and reached again. */
  function markFloor(): void {
    const floors: Run[] = [];
    let from = -1;
    for (let j = 0; j <= count; j++) {
      const isOn = j < count && at(j) - low <= FLOOR_C;
      if (isOn && from < 0) from = j;
      else if (!isOn && from >= 0) {
        floors.push({ from, to: j - 1 });
        from = -1;
      }
    }
    const long = floors.filter((floor) => floor.to - floor.from >= FLOOR_RUN);
    if (long.length < 2 || sum(long) < FLOOR_ROWS || sum(long) < FLOOR_SHARE * count) return;
    mark(
      floors,
      `the reading stays within ${formatTempSpan(FLOOR_C, 1)} of ${formatTemp(low, 1)}, the lowest it ever shows, again and again: the bottom of the instrument's range`,
    );
  }

  function mark(runs: readonly Run[], reason: string): void {
    for (const { from, to } of runs) for (let j = from; j <= to; j++) marks[rows[j]!] = CLAMPED;
    channel.remarks.set('clamped', reason);
  }

  /** Smallest step the reading makes. */
  function lastDigit(): number {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 1; j < count; j++)
      if (at(j) !== at(j - 1)) least = Math.min(least, Math.abs(at(j) - at(j - 1)));
    return least;
  }

  function runsAt(value: number, least: number): Run[] {
    const runs: Run[] = [];
    let from = -1;
    for (let j = 0; j <= count; j++) {
      const isAt = j < count && at(j) === value;
      if (isAt && from < 0) from = j;
      else if (!isAt && from >= 0) {
        if (j - from >= least) runs.push({ from, to: j - 1 });
        from = -1;
      }
    }
    return runs;
  }

  function longestOther(): number {
    let best = 1;
    let from = 0;
    for (let j = 1; j <= count; j++) {
      if (j < count && at(j) === at(from)) continue;
      if (at(from) !== low && at(from) !== high) best = Math.max(best, j - from);
      from = j;
    }
    return best;
  }

  /** Full slope into the run, and out of it unless the trace ends there. */
  function isSharp({ from, to }: Run): boolean {
    const slope = (a: number, b: number) => Math.abs(at(b) - at(a)) / Math.abs(b - a);
    const needed = SHARP_DIGITS * digit();
    const runsIn =
      from >= 4 &&
      slope(from - 4, from - 1) >= needed &&
      slope(from - 2, from - 1) * 2 >= slope(from - 4, from - 2);
    const runsOut = to + 4 >= count || slope(to + 1, to + 3) >= 2 * digit();
    return runsIn && runsOut;
  }
}

/** Do enough whole blocks of rows lie just above the lowest reading to look for a bottom with noise? */
function hasFloor(tempC: Float64Array, marks: Uint8Array, low: number): boolean {
  let held = 0;
  for (let from = 0; from + FLOOR_BLOCK <= tempC.length; from += FLOOR_BLOCK)
    if (isOnFloor(tempC, marks, low, from, from + FLOOR_BLOCK)) held += FLOOR_BLOCK;
  return held * 3 >= FLOOR_ROWS;
}

function isOnFloor(tempC: Float64Array, marks: Uint8Array, low: number, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (!(tempC[i]! - low <= FLOOR_C) && marks[i] === 0) return false;
  return true;
}

/** Are there so many trusted readings in a row of exactly one value? */
function hasRun(tempC: Float64Array, marks: Uint8Array, value: number, least: number): boolean {
  let run = 0;
  for (let i = tempC.indexOf(value); i >= 0 && i < tempC.length; i++) {
    if (marks[i] !== TRUSTED) continue;
    if (tempC[i] === value) run++;
    else {
      run = 0;
      i = tempC.indexOf(value, i) - 1;
      if (i < 0) return false;
    }
    if (run >= least) return true;
  }
  return false;
}

const sum = (runs: readonly Run[]) => runs.reduce((n, { from, to }) => n + to - from + 1, 0);
const longest = (runs: readonly Run[]) => runs.reduce((n, { from, to }) => Math.max(n, to - from + 1), 0);
