import { TemperbookError } from '../../quantity';
import { parseUnit } from '../layout/units';
import type { Reading } from '../reading';
import type { LongFile } from './longFile';
import type { LongLine } from './longLines';
import { isBefore, isSameTime } from './longTimes';

/** What a long file holds. */
export interface LongSurvey {
  /** Channels in the order in which they first appear, each with the unit beside its readings. */
  readonly units: ReadonlyMap<string, string>;
  /** Do channels come more than once at most times: a clock coarser than the readings, or none? */
  readonly isCoarse: boolean;
}

const MOST_CHANNELS = 1000;
/** So many lines of one channel in a row are a block of it. */
const BLOCK = 3;
const COARSE = 0.5;

/**
 * Looks a long file through.
 * @throws TemperbookError when a channel's unit changes, or when the channels stand in blocks one under the other.
 */
export function surveyLong(lines: Iterable<LongLine>, long: LongFile, reading: Reading): LongSurvey {
  const { file } = reading;
  const units = new Map<string, string>();
  const nameColumn = long.columns[long.name]!.column.name;
  let last: LongLine | undefined;
  let times = 0;
  let repeated = 0;
  let run = 0;
  let back: LongLine | undefined;
  const seen = new Set<string>();
  for (const line of lines) {
    if (!line.isReading || !line.isWhole) continue;
    if (!last || !isSameTime(line.clock, last.clock)) {
      times++;
      seen.clear();
    } else if (seen.has(line.name) && seen.size > 1) {
      repeated++;
      seen.clear();
    }
    seen.add(line.name);
    addUnit(units, line, long, file);
    if (line.name === last?.name) run++;
    else {
      back = last && run >= BLOCK && isBefore(line.clock, last.clock) ? line : undefined;
      run = 1;
    }
    if (back && run >= BLOCK)
      throw new TemperbookError('The channels of the file stand in blocks, one under the other', {
        file,
        row: back.row,
        column: nameColumn,
        found: `"${back.name}", from an earlier time on`,
        expected: 'the readings of one time together',
        remedy: 'Sort the file by its time, or cut it into one file for each channel',
      });
    if (units.size > MOST_CHANNELS)
      throw new TemperbookError('The file names more channels than any logger has', {
        file,
        row: line.row,
        column: nameColumn,
        found: `more than ${MOST_CHANNELS} names, "${line.name}" among them`,
        remedy: 'Check that this column names channels',
      });
    last = line;
  }
  return { units, isCoarse: long.clocks.length === 0 || repeated >= COARSE * times };
}

function addUnit(units: Map<string, string>, line: LongLine, long: LongFile, file: string): void {
  const { name, unit, row } = line;
  const symbol = parseUnit(unit)?.symbol ?? (/^[cf]$/.test(unit) ? `°${unit.toUpperCase()}` : '');
  const before = units.get(name);
  if (before && symbol && before !== symbol)
    throw new TemperbookError('The unit of the temperatures changes in mid-file', {
      file,
      row,
      column: long.columns[long.unit!]!.column.name,
      found: `"${unit}" after ${before} for "${name}"`,
      remedy: 'Cut the file where the unit changes and read the parts one by one',
    });
  units.set(name, before || symbol);
}
