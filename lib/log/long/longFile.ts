import { TemperbookError } from '../../quantity';
import { type ColumnSample, risingShare } from '../columns/columnSample';
import { UNIT_NAME } from '../columns/unitColumn';
import { isClockName } from '../layout/units';
import type { Reading } from '../reading';
import { isBefore } from './longTimes';

/** A file with one reading to a row: the places of a row's parts in it. */
export interface LongFile {
  /** The clock's columns: rows alike in them belong together. */
  readonly clocks: readonly number[];
  readonly name: number;
  readonly value: number;
  /** Unit of each row, where it has a column of its own. */
  readonly unit?: number;
  readonly columns: readonly ColumnSample[];
}

const LEAST_ROWS = 8;
const MOST_CHANNELS = 64;
/** Share of the rows that must have the time of the row above and another name, where no header says "channel". */
const SHARED = 0.2;
/** The same where a header does. */
const SOME_SHARED = 2;
const IN_TURN = 0.8;
const CHANNEL_NAME =
  /^(?:ch(?:an(?:nel)?)?|kanal|canal|voie|sensor|probe|fühler|input|tag|name|signal|source|location|point|variable)\b/i;
/** Columns that name nothing else. */
const PROBE_NAME = /^(?:ch(?:an(?:nel)?)?|kanal|canal|voie|sensor|probe|fühler)\b/i;
const VALUE_NAME = /^(?:value|reading|measure\w*|temp\w*|data|wert|messwert|valeur|valor)\b/i;
const COUNTER_NAME = /^(?:no\b|nr\b|n°|#|scan|index|row|record|rec\b|seq|entry|id\b|line)/i;

/**
 * Recognises a file that has one reading to a row and the channel's name beside it. Read as one channel it would jump from
 * probe to probe.
 * @throws TemperbookError when names come round as channels do, but neither the header nor shared times say that they are.
 */
export function longFile(samples: readonly ColumnSample[], { file }: Reading): LongFile | undefined {
  const clocks = samples.filter(isClock);
  const name = samples.find((sample) => !isClock(sample) && namesChannels(sample));
  const value = name && valueColumn(samples, name);
  if (!name || !value) return undefined;
  const unit = samples.find((sample) => sample.kind === 'text' && UNIT_NAME.test(sample.column.stem));
  const isNamed = CHANNEL_NAME.test(name.column.stem);
  const shared = sharedTimes(clocks, name);
  const isShared = isNamed ? shared >= SOME_SHARED : shared >= SHARED * name.texts.length;
  const isPlainly = PROBE_NAME.test(name.column.stem) && (comesBack(name) || goesBack(clocks, name));
  if (isShared || isPlainly || (isNamed && comesInTurn(name)))
    return {
      clocks: clocks.map(({ column }) => column.index),
      name: name.column.index,
      value: value.column.index,
      ...(unit && unit !== name ? { unit: unit.column.index } : {}),
      columns: samples,
    };
  if (!comesInTurn(name)) return undefined;
  throw new TemperbookError('The file seems to have one reading to a row, with its channel beside it', {
    file,
    column: name.column.name,
    found: [...new Set(name.texts.filter((text) => text !== ''))]
      .slice(0, 4)
      .map((text) => `"${text}"`)
      .join(', '),
    expected: 'one row for each time, or a column called "Channel"',
    remedy: 'Call that column "Channel" in a copy of the file, or export a column for each channel',
  });
}

function isClock({ column, kind, numbers }: ColumnSample): boolean {
  if (kind === 'stamp' || kind === 'time' || kind === 'date') return true;
  if (kind !== 'number') return false;
  return (
    column.unit?.quantity === 'time' ||
    (!column.unit && isClockName(column.stem) && risingShare(numbers) > 0.5)
  );
}

/** The one column of readings: the only numbers there are, or the only ones called so. */
function valueColumn(samples: readonly ColumnSample[], name: ColumnSample): ColumnSample | undefined {
  const numbers = samples.filter(
    (s) => s !== name && s.kind === 'number' && !isClock(s) && !COUNTER_NAME.test(s.column.stem),
  );
  if (numbers.length === 1) return numbers[0];
  const called = numbers.filter(
    ({ column }) => VALUE_NAME.test(column.stem) || column.unit?.quantity === 'temperature',
  );
  return called.length === 1 ? called[0] : undefined;
}

function namesChannels({ column, kind, texts, numbers }: ColumnSample): boolean {
  if (UNIT_NAME.test(column.stem)) return false;
  const filled = texts.filter((text) => text !== '');
  const distinct = new Set(filled);
  if (filled.length < LEAST_ROWS || distinct.size < 2 || distinct.size > MOST_CHANNELS) return false;
  const isName =
    kind === 'text' ||
    (CHANNEL_NAME.test(column.stem) &&
      column.unit === undefined &&
      numbers.every((n) => Number.isInteger(n)));
  return isName && filled.length >= 3 * distinct.size;
}

/** Rows with the time of the row above and another channel. */
function sharedTimes(clocks: readonly ColumnSample[], name: ColumnSample): number {
  if (clocks.length === 0) return 0;
  let shared = 0;
  for (let i = 1; i < name.texts.length; i++)
    if (name.texts[i] !== name.texts[i - 1] && clocks.every(({ texts }) => texts[i] === texts[i - 1]))
      shared++;
  return shared;
}

/** Does every channel come again after others? */
function comesBack({ texts }: ColumnSample): boolean {
  const changes = texts.filter((text, i) => i > 0 && text !== texts[i - 1]).length;
  return changes >= 2 * new Set(texts).size;
}

/** Does another channel begin at an earlier time? */
const goesBack = (clocks: readonly ColumnSample[], { texts }: ColumnSample): boolean => {
  const at = (i: number) => clocks.map((clock) => clock.texts[i]!);
  return texts.some((text, i) => i > 0 && text !== texts[i - 1] && isBefore(at(i), at(i - 1)));
};

/** Channels come round in turn; a column of states changes more seldom. */
function comesInTurn({ texts }: ColumnSample): boolean {
  const filled = texts.filter((text) => text !== '').slice(0, 120);
  const turn = new Set(filled).size;
  let again = 0;
  for (let i = turn; i < filled.length; i++)
    if (filled[i] === filled[i - turn] && filled[i] !== filled[i - 1]) again++;
  return again >= IN_TURN * (filled.length - turn);
}
