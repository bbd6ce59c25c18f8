import { TemperbookError } from '../../quantity';
import { type LineSpan, lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import { parseUnit } from '../layout/units';
import type { Reading } from '../reading';
import type { TempUnit } from '../readOptions';
import type { ColumnSample } from './columnSample';
import { SCALES } from './unitScales';

/** A unit that a column of units gives for a channel. */
export interface UnitInColumn {
  readonly unit: TempUnit;
  /** Name of the column of units. */
  readonly column: string;
}

/** Name of a column that holds the unit of each row. */
export const UNIT_NAME = /^(?:units?|uom|einheit(?:en)?|scale|unité)(?:\b|[ _.#-]*\d)/i;
const unitOf = (text: string): TempUnit | undefined => {
  if (/^ok$/i.test(text)) return undefined;
  const symbol = parseUnit(text)?.symbol ?? (/^[cf]$/.test(text) ? `°${text.toUpperCase()}` : undefined);
  return symbol !== undefined && Object.hasOwn(SCALES, symbol) ? (symbol as TempUnit) : undefined;
};

/**
 * The units that columns of units give, "72.5,F": a single one for all channels, several each for the channel
 * before it.
 * @throws TemperbookError when one changes in mid-file, or when they differ and do not stand right behind a channel each.
 */
export function unitsInColumns(
  samples: readonly ColumnSample[],
  channels: readonly ColumnSample[],
  text: LogText,
  delimiter: string,
  firstRow: LineSpan,
  reading: Reading,
): ReadonlyMap<ColumnSample, UnitInColumn> {
  const columns = reading.options.unit === undefined ? samples.filter(holdsUnits) : [];
  if (columns.length === 0) return new Map();
  const found = columns.map(({ column }) => ({
    column,
    unit: unitThroughout(column.index, column.name, text, delimiter, firstRow, reading),
  }));
  for (const { column, unit } of found)
    reading.notes.push(`Column "${column.name}" says that the temperatures are in ${unit}.`);
  const isOne = new Set(found.map(({ unit }) => unit)).size === 1;
  const pairs = channels.map((channel) => {
    const own = isOne ? found[0] : found.find(({ column }) => column.index === channel.column.index + 1);
    return [channel, own && { unit: own.unit, column: own.column.name }] as const;
  });
  const given = pairs.filter((pair): pair is [ColumnSample, UnitInColumn] => pair[1] !== undefined);
  if (!isOne && given.length < Math.max(found.length, channels.length))
    throw new TemperbookError('Which channel each column of units belongs to cannot be known', {
      file: reading.file,
      found: found.map(({ column, unit }) => `"${column.name}" ${unit}`).join(', '),
      expected: 'one column of units right behind each channel',
      remedy: 'Say the unit of each channel, as option unit: { "column": "°C" }',
    });
  return new Map(given);
}

function holdsUnits({ column: { named, stem }, kind, texts }: ColumnSample): boolean {
  if (kind !== 'text' || (named && !UNIT_NAME.test(stem))) return false;
  const filled = texts.filter((field) => field !== '');
  return filled.length > 1 && filled.every((field) => unitOf(field) !== undefined);
}

function unitThroughout(
  index: number,
  column: string,
  text: LogText,
  delimiter: string,
  firstRow: LineSpan,
  { file }: Reading,
): TempUnit {
  let unit: TempUnit | undefined;
  for (let line = firstRow; ; line = lineAt(text, line.next, line.row + 1)) {
    const field = splitFields(text.decode(line.from, line.to), delimiter)[index] ?? '';
    const own = unitOf(field);
    if (own !== undefined && unit !== undefined && own !== unit)
      throw new TemperbookError('The unit of the temperatures changes in mid-file', {
        ...{ file, row: line.row, column },
        found: `"${field}" after ${unit}`,
        remedy: 'Cut the file where the unit changes and read the parts one by one',
      });
    unit ??= own;
    if (line.next >= text.length) return unit!;
  }
}
