import { nowAndThen, TemperbookError } from '../../quantity';
import { type LineSpan, lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import { ClockReader } from '../clock/clockReader';
import { fieldClass } from '../layout/fieldClass';
import { type HeaderColumn, readHeader } from '../layout/header';
import { headerStamp } from '../layout/headerStamp';
import type { Reading } from '../reading';
import { LogTable } from './logTable';
import { layoutOf, type ReadPlan } from './rowLayout';
import { RowReader } from './rowReader';

/** A line between rows that is not itself a row. */
interface OddLine extends LineSpan {
  readonly text: string;
}

/** Lines a header repeated in mid-file has at most; of a longer one only the end is looked at. */
const LONGEST_HEADER = 200;

const COMMENT = /^\s*(?:#|%|\/\/)/;

/**
 * Reads all rows from the first one on. Lines whose clock cannot be read are looked at: a repeated header
 * starts a new block (in which columns may stand in another order), comments are passed over, everything else
 * is a rejected row.
 */
export function readRows(
  text: LogText,
  plan: ReadPlan,
  first: LineSpan,
  headerLines: readonly string[],
  reading: Reading,
): LogTable {
  const { notes, options } = reading;
  const tell = nowAndThen(options.onProgress);
  const onChunk = (at: number): void => tell(at / text.length);
  const table = new LogTable(plan.channels.length, capacityFor(text, first), plan.reference !== undefined);
  const names = new Set(plan.header.names.filter((name) => name !== ''));
  const known = new Set(headerLines.map((line) => line.trim()));
  const intervalS = plan.clock.kind === 'rows' ? plan.clock.intervalS : undefined;
  const clock = new ClockReader(plan.clock, plan.dialect.decimal, text.toText);
  const readerFor = (columns: readonly HeaderColumn[], width: number) =>
    new RowReader(text, layoutOf(plan, columns, width), clock, table, { intervalS, onChunk });
  const ownReader = readerFor(plan.header.columns, plan.dialect.width);
  const ownFields = fieldsOf(plan, plan.header.columns);
  let reader = ownReader;
  let fields = ownFields;
  const startBlock = (place: { at: number; row: number }, lines: readonly string[]) => {
    const startUs = headerStamp(lines);
    table.blocks.push({ ...place, fields, ...(startUs === undefined ? {} : { startUs }) });
  };
  startBlock({ at: 0, row: first.row }, headerLines);
  let group: OddLine[] = [];
  let isHeader = false;
  let comments = 0;
  let repeats = 0;
  /** Rows follow on a group of odd lines: it was a header, or rows that cannot be used. */
  const closeGroup = (place: { at: number; row: number }) => {
    if (isHeader) {
      startBlock(
        place,
        group.map(({ text: line }) => line),
      );
      repeats++;
    } else for (const line of group) table.reject(notARow(line, plan));
    group = [];
    isHeader = false;
  };

  let at = first.from;
  let row = first.row;
  while (at < text.length) {
    const place = { at: table.length, row };
    onChunk(at);
    const taken = table.length + table.rejected;
    ({ at, row } = reader.read(at, row));
    if (table.length + table.rejected > taken && group.length > 0) closeGroup(place);
    if (at >= text.length) break;
    const span = lineAt(text, at, row);
    const line = { ...span, text: text.decode(span.from, span.to) };
    at = span.next;
    row++;
    if (line.text.trim() === '') continue;
    const repeated = repeatedNames(line.text, plan, names);
    if (COMMENT.test(line.text) && !repeated) {
      comments++;
      continue;
    }
    group.push(line);
    // A header is short: lines far above it are no part of it.
    if (!isHeader && group.length > 2 * LONGEST_HEADER)
      for (const early of group.splice(0, LONGEST_HEADER)) table.reject(notARow(early, plan));
    if (known.has(line.text.trim()) || repeated) isHeader = true;
    if (repeated) {
      const columns = blockColumns(line.text, plan, repeated, reading, line.row);
      reader = columns ? readerFor(columns, columns.length) : ownReader;
      fields = columns ? fieldsOf(plan, columns) : ownFields;
    }
  }
  if (group.length > 0) closeGroup({ at: table.length, row });
  if (comments > 0)
    notes.push(
      `${count(comments, 'comment line')} between the rows ${comments === 1 ? 'was' : 'were'} passed over.`,
    );
  if (repeats > 0)
    notes.push(
      `The header starts over ${count(repeats, 'time')} in the file; the rows of all blocks are read as one log.`,
    );
  return table;
}

const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`;

/** Field of each channel in rows of these columns. */
function fieldsOf({ channels }: ReadPlan, columns: readonly HeaderColumn[]): number[] {
  const places = new Map(columns.map(({ index }, at) => [index, at] as const));
  return channels.map(({ index }) => places.get(index) ?? -1);
}

/** A little more room than the first lines let expect; growing is slow and takes memory twice. */
function capacityFor(text: LogText, first: LineSpan): number {
  let line = first;
  let lines = 1;
  while (lines < 100 && line.next < text.length) {
    line = lineAt(text, line.next, 0);
    lines++;
  }
  const perLine = Math.max(2, (line.next - first.from) / lines);
  return Math.ceil(((text.length - first.from) / perLine) * 1.03) + 16;
}

/** Fields of a line that has at least half of the names of the names row, or the clock's where that stands. */
function repeatedNames(
  line: string,
  { dialect, clock, header }: ReadPlan,
  names: ReadonlySet<string>,
): string[] | undefined {
  if (names.size === 0 || line.length > 65_536) return undefined;
  const fields = splitFields(line.replace(/^\s*(?:#|%|\/\/)\s*/, ''), dialect.delimiter);
  const at = 'column' in clock ? clock.column : -1;
  const isClockNamed = (header.names[at] ?? '') !== '' && fields[at]?.toLowerCase() === header.names[at];
  if (isClockNamed && fields.length > 1) return fields;
  if (fields.length * 2 < names.size) return undefined;
  const found = new Set<string>();
  for (const field of fields) {
    const name = field.toLowerCase();
    if (names.has(name)) found.add(name);
  }
  return found.size > 0 && found.size * 2 >= names.size ? fields : undefined;
}

/** Columns of a block whose names row differs from the first one; undefined when it is the same. */
function blockColumns(
  line: string,
  plan: ReadPlan,
  fields: readonly string[],
  reading: Reading,
  row: number,
): HeaderColumn[] | undefined {
  const { notes } = reading;
  const same =
    fields.length === plan.header.names.length &&
    fields.every((field, i) => field.toLowerCase() === plan.header.names[i]);
  if (same) return undefined;
  const dialect = { ...plan.dialect, width: fields.length };
  const { columns } = readHeader([{ row, text: line }], dialect, []);
  const moved = columns.map((column) => {
    const own = plan.header.columns.find(({ name }) => name.toLowerCase() === column.name.toLowerCase());
    return { ...column, index: own?.index ?? -1 };
  });
  const strangers = moved.filter(({ index }) => index < 0).map(({ name }) => `"${name}"`);
  notes.push(
    `From row ${row} on the columns stand otherwise; they are found by name${strangers.length > 0 ? `, and ${strangers.join(', ')}, which the first header does not have, ${strangers.length === 1 ? 'is' : 'are'} left aside` : ''}.`,
  );
  for (const { name, stem, unit } of plan.channels) {
    const other = columns.find((column) => column.stem === stem && column.unit?.symbol !== unit?.symbol);
    if (unit && other?.unit?.quantity === unit.quantity)
      throw new TemperbookError('The unit of the temperatures changes in mid-file', {
        ...{ file: reading.file, row, column: name },
        found: `"${other.name}" in a second header`,
        remedy: 'Cut the file above that header and read the parts one by one',
      });
  }
  const gone = plan.channels
    .filter(({ index }) => moved.every((column) => column.index !== index))
    .map(({ name }) => `"${name}"`);
  if (gone.length > 0)
    notes.push(
      `Warning: from row ${row} on the file has no column ${gone.join(', ')}; nothing is known of ${gone.length === 1 ? 'it' : 'them'} from there on.`,
    );
  return moved;
}

function notARow({ row, from, text }: OddLine, { clock, dialect, header }: ReadPlan) {
  const fields = splitFields(text, dialect.delimiter);
  const column = 'column' in clock ? clock.column : undefined;
  const isShort =
    column === undefined ||
    fields.length <= column ||
    (fields[column] === '' && fields.length < dialect.width);
  const name = column === undefined ? '' : (header.columns[column]?.name ?? '');
  const isWords =
    fieldClass(fields[column ?? 0] ?? '') === 'text' || (fields.length === 1 && dialect.width > 1);
  const place = { row, offset: from, ...(isWords ? { isNoRow: true as const } : {}) };
  return isShort
    ? {
        ...place,
        kind: 'missing field' as const,
        column: '',
        reason: `the row has ${fields.length} of ${dialect.width} fields and no reading that can be placed`,
      }
    : {
        ...place,
        kind: 'clock' as const,
        column: name,
        reason: fields[column] === '' ? 'the row has no time' : 'the time of the row cannot be read',
      };
}
