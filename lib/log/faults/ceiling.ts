import { formatTemp } from '../../quantity';
import { type ChannelData, trustedRows } from './channelData';
import { codeOf, TRUSTED } from './faultCodes';

const CLAMPED = codeOf('clamped');
/** A top with noise on it: width of the band below the highest reading, K, and rows of one stretch. */
const BAND_C = 0.6;
const RUN = 20;
/** Rows on which a trace runs into the band, each with at least this share of their mean rise. */
const RUN_IN = 4;
const EVEN_SHARE = 0.5;
/** Least slope of the run in: the band is crossed within one row; K/s, and no oven rises so fast. */
const LEAST_C_PER_S = 1;

/**
 * Marks readings held at the top of an instrument's range with noise on them: a trace that rises at full slope, evenly over
 * four rows and by more than the band at each, and then stays within `BAND_C` of its highest reading for twenty. Metal
 * cannot: on a rounded peak that is entered with s K a row it stays for about 4·0.6/s rows, fewer than four, and whatever
 * follows a bath or an arc slows down before it gets there.
 */
export function markCeiling(channel: ChannelData, timeS: Float64Array, highC: number): void {
  const { tempC, marks } = channel;
  const floorC = highC - BAND_C;
  if (!hasRunAbove(tempC, marks, floorC)) return;
  const rows = trustedRows(marks);
  const at = (j: number) => tempC[rows[j]!]!;
  const marked: number[] = [];
  let isCeiling = false;
  for (let from = 0; from < rows.length; from++) {
    if (at(from) < floorC) continue;
    let to = from;
    while (to + 1 < rows.length && at(to + 1) >= floorC) to++;
    for (let j = from; j <= to; j++) marked.push(rows[j]!);
    isCeiling ||= to - from + 1 >= RUN && isNoisy(from, to) && runsInto(from);
    from = to;
  }
  if (!isCeiling) return;
  for (const row of marked) marks[row] = CLAMPED;
  channel.remarks.set(
    'clamped',
    `the reading runs into ${formatTemp(highC, 1)} at full slope and stays within ${BAND_C} K of it, the highest it ever shows: the top of the instrument's range`,
  );

  /** One exact value is no noise: what that means is judged with what follows it. */
  function isNoisy(from: number, to: number): boolean {
    let exact = 0;
    for (let j = from; j <= to; j++) if (at(j) === highC) exact++;
    return 2 * exact < to - from + 1;
  }

  /** The row before the band is still at full slope, as the rows before it are. */
  function runsInto(from: number): boolean {
    if (from <= RUN_IN) return false;
    const rise = at(from - 1) - at(from - 1 - RUN_IN);
    const overS = timeS[rows[from - 1]!]! - timeS[rows[from - 1 - RUN_IN]!]!;
    if (rise < RUN_IN * BAND_C || rise < LEAST_C_PER_S * overS) return false;
    for (let j = from - RUN_IN; j < from; j++)
      if (at(j) - at(j - 1) < (EVEN_SHARE * rise) / RUN_IN) return false;
    return true;
  }
}

/** A first look: are so many trusted readings in a row within the band? */
function hasRunAbove(tempC: Float64Array, marks: Uint8Array, floorC: number): boolean {
  let run = 0;
  for (let i = 0; i < tempC.length; i++) {
    if (marks[i] !== TRUSTED) continue;
    run = tempC[i]! >= floorC ? run + 1 : 0;
    if (run >= RUN) return true;
  }
  return false;
}
