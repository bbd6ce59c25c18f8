import { TemperbookError } from '../../quantity';
import { type LineSpan, lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import { parseUnit } from '../layout/units';
import type { Reading } from '../reading';
import type { TempUnit } from '../readOptions';
import type { ColumnSample } from './columnSample';
import { SCALES } from './unitScales';

/** Name of a column that holds the unit of each row. */
export const UNIT_NAME = /^(?:units?|uom|einheit(?:en)?|scale|unité)\b/i;
const unitOf = (text: string): TempUnit | undefined => {
  const symbol = parseUnit(text)?.symbol ?? (/^[cf]$/.test(text) ? `°${text.toUpperCase()}` : undefined);
  return symbol !== undefined && Object.hasOwn(SCALES, symbol) ? (symbol as TempUnit) : undefined;
};

/**
 * The unit that a column of units gives for all rows, "72.5,F".
 * @throws TemperbookError when it changes in mid-file.
 */
export function unitOfColumn(
  samples: readonly ColumnSample[],
  text: LogText,
  delimiter: string,
  firstRow: LineSpan,
  reading: Reading,
): TempUnit | undefined {
  const isUnits = ({ column: { named, stem }, texts }: ColumnSample) => {
    if (named && !UNIT_NAME.test(stem)) return false;
    const filled = texts.filter((field) => field !== '');
    return filled.length > 1 && filled.every((field) => !/^ok$/i.test(field) && unitOf(field) !== undefined);
  };
  const column = samples.find((sample) => sample.kind === 'text' && isUnits(sample))?.column;
  if (!column || reading.options.unit !== undefined) return undefined;
  let unit: TempUnit | undefined;
  for (let line = firstRow; ; line = lineAt(text, line.next, line.row + 1)) {
    const field = splitFields(text.decode(line.from, line.to), delimiter)[column.index] ?? '';
    const own = unitOf(field);
    if (own !== undefined && unit !== undefined && own !== unit)
      throw new TemperbookError('The unit of the temperatures changes in mid-file', {
        file: reading.file,
        row: line.row,
        column: column.name,
        found: `"${field}" after ${unit}`,
        remedy: 'Cut the file where the unit changes and read the parts one by one',
      });
    unit ??= own;
    if (line.next >= text.length) break;
  }
  if (unit !== undefined)
    reading.notes.push(`Column "${column.name}" says that the temperatures are in ${unit}.`);
  return unit;
}
