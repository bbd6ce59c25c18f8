import { heldBytes } from '../bytes/fileBytes';
import { lineAt } from '../bytes/lines';
import { type LogText, textOf } from '../bytes/logText';
import type { Dialect } from '../layout/dialect';
import type { Header, HeaderLines } from '../layout/header';
import type { Reading } from '../reading';
import type { Reject } from '../rows/logTable';
import type { LongFile } from './longFile';
import { type LongLine, longLines } from './longLines';
import { isSameTime } from './longTimes';
import { surveyLong } from './surveyLong';

/** A long file with a column for each channel, and what it takes to account for its lines. */
export interface PivotedText {
  readonly text: LogText;
  readonly found: HeaderLines;
  readonly delimiter: Dialect['delimiter'];
  /** Lines of readings in the file. */
  readonly lines: number;
  /** Lines that cannot be placed. */
  readonly rejects: readonly Reject[];
  /** Does the file hold an empty reading for this column of the row at this line? */
  readonly isEmptyLine: (column: number, row: number) => boolean;
}

interface Group {
  readonly clock: readonly string[];
  readonly row: number;
  /** First line of each channel. */
  readonly first: Map<string, LongLine>;
  /** Lines that are used. */
  readonly used: Map<string, LongLine>;
  lines: number;
}

/**
 * Puts the readings of one time into one row. The row stands on the line of the first of them and the lines of the others
 * are left blank, so that every row number is one of the file. Two readings of a channel at one time, where the clock is
 * not simply coarser than the readings, cannot both be right: neither is used unless they are the same.
 * @throws TemperbookError as `surveyLong`.
 */
export function pivotText(
  text: LogText,
  found: HeaderLines,
  dialect: Dialect,
  { preamble }: Header,
  long: LongFile,
  reading: Reading,
): PivotedText {
  const lines = () => longLines(text, found, dialect.delimiter, long);
  const { units, isCoarse } = surveyLong(lines(), long, reading);
  const delimiter = dialect.delimiter === ' ' ? '\t' : dialect.delimiter;
  const names = [...units.keys()];
  const column = (index: number) => long.columns[index]!.column;
  const heads = [
    ...long.clocks.map((index) => column(index).name),
    ...names.map((name) => {
      const unit = units.get(name) || column(long.value).unit?.symbol;
      const own = /^\d+$/.test(name) ? `${column(long.name).stem} ${name}` : name;
      return unit ? `${own} (${unit})` : own;
    }),
  ];
  const joined = (fields: readonly string[]) => fields.map(quoted).join(delimiter);
  const namesLine = joined(heads);

  const out = new Array<string>(found.firstRow.row - 1).fill('');
  const rejects: Reject[] = [];
  const empty = new Set<string>();
  let group: Group | undefined;
  let count = 0;
  const reject = (line: LongLine, kind: Reject['kind'], reason: string) =>
    rejects.push({ row: line.row, offset: 0, kind, column: column(long.name).name, reason, value: line.raw });
  const close = () => {
    if (!group) return;
    const { clock, row, used } = group;
    const values = names.map((name) => used.get(name)?.value ?? '');
    names.forEach((name, k) => {
      if (used.get(name)?.value === '') empty.add(`${row} ${clock.length + k}`);
    });
    const wide = used.size === 0 ? '' : joined([...clock, ...values]);
    out.push(wide, ...new Array<string>(group.lines - 1).fill(''));
    group = undefined;
  };
  for (const line of lines()) {
    if (!line.isReading) {
      close();
      out.push(line.isHeader ? namesLine : line.raw);
      continue;
    }
    count++;
    const isNext = isCoarse && line.isWhole && group?.first.has(line.name);
    if (!group || isNext || !isSameTime(line.clock, group.clock)) {
      close();
      group = { clock: line.clock, row: line.row, first: new Map(), used: new Map(), lines: 0 };
    }
    group.lines++;
    if (!line.isWhole) {
      reject(line, 'missing field', 'the row has no channel, or no field for its reading');
      continue;
    }
    const first = group.first.get(line.name);
    if (!first) {
      group.first.set(line.name, line);
      group.used.set(line.name, line);
    } else if (first.value === line.value)
      reject(line, 'clock', `the same reading of "${line.name}" at this time stands above it`);
    else {
      const reason = `"${line.name}" has more than one reading at this time; which is right cannot be known, so none is used`;
      if (group.used.delete(line.name)) reject(first, 'clock', reason);
      reject(line, 'clock', reason);
    }
  }
  close();

  const wide = textOf(heldBytes(Buffer.from(`${out.join('\n')}\n`)), (piece) => piece.toString('utf8'));
  reading.notes.push(
    `The file has one reading to a row, with its channel in column "${column(long.name).name}"; the readings of one time are put together, of ${names.length} channels in all.${sentenceOfOthers(long)}`,
  );
  return {
    text: wide,
    found: {
      lines: [
        ...found.lines.filter((line) => preamble.includes(line.text)),
        { row: Math.max(1, found.firstRow.row - 1), text: namesLine },
      ],
      firstRow: lineAt(wide, found.firstRow.row - 1, found.firstRow.row),
    },
    ...{ delimiter, rejects, lines: count },
    isEmptyLine: (at, row) => empty.has(`${row} ${at}`),
  };
}

/** Columns that say nothing of which reading stands in a row. */
function sentenceOfOthers({ columns, clocks, name, value, unit }: LongFile): string {
  const used = new Set([...clocks, name, value, unit]);
  const others = columns
    .filter(({ column, kind }) => !used.has(column.index) && kind !== 'empty')
    .map(({ column }) => `"${column.name}"`);
  return others.length === 0 ? '' : ` ${others.join(', ')} ${others.length === 1 ? 'is' : 'are'} left aside.`;
}

const quoted = (field: string) => (/[",;\t]|^\s|\s$/.test(field) ? `"${field.replace(/"/g, '""')}"` : field);
