import { type LineSpan, lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import type { HeaderLines } from '../layout/header';
import type { LongFile } from './longFile';

/** One line of a long file; `isReading` is false for blank lines, comments and repeated headers. */
export interface LongLine {
  readonly raw: string;
  readonly row: number;
  readonly from: number;
  readonly isReading: boolean;
  readonly isHeader: boolean;
  readonly clock: readonly string[];
  readonly name: string;
  readonly value: string;
  readonly unit: string;
  /** Has it a field for a name and one for a reading? */
  readonly isWhole: boolean;
}

const COMMENT = /^\s*(?:#|%|\/\/)/;

/** Goes through the lines of a long file from its first reading on. */
export function* longLines(
  text: LogText,
  { lines: headerLines, firstRow }: HeaderLines,
  delimiter: string,
  long: LongFile,
): Generator<LongLine> {
  const known = new Set(headerLines.map((line) => line.text.trim()));
  const last = Math.max(long.name, long.value);
  for (let line: LineSpan = firstRow; ; line = lineAt(text, line.next, line.row + 1)) {
    const raw = text.decode(line.from, line.to);
    const isHeader = known.has(raw.trim());
    const isReading = raw.trim() !== '' && !isHeader && !COMMENT.test(raw);
    const fields = isReading ? splitFields(raw, delimiter) : [];
    const field = (index: number) => fields[index] ?? '';
    yield {
      ...{ raw, row: line.row, from: line.from, isReading, isHeader },
      clock: long.clocks.map(field),
      name: field(long.name),
      value: field(long.value),
      unit: long.unit === undefined ? '' : field(long.unit),
      isWhole: fields.length > last && field(long.name) !== '',
    };
    if (line.next >= text.length) return;
  }
}
