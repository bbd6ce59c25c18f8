import { formatDuration, TemperbookError } from '../quantity';
import { type SampleLine, sampleLines, splitFields } from './bytes/lines';
import { type LogText, logText } from './bytes/logText';
import type { SourceBytes } from './bytes/sourceBytes';
import { type ClockAxis, clockAxis } from './clock/clockAxis';
import { isoStamp } from './clock/stamp';
import { type ColumnPlan, columnPlan } from './columns/columnPlan';
import { type ColumnSample, columnSamples } from './columns/columnSample';
import { type Dialect, isRowLike, sniffDialect } from './layout/dialect';
import { findHeader, type Header, type HeaderLines, readHeader } from './layout/header';
import { headerStamp } from './layout/headerStamp';
import { type LogStatements, logStatements } from './logStatements';
import { longFile } from './long/longFile';
import { markAbsent } from './long/markAbsent';
import { type PivotedText, pivotText } from './long/pivotText';
import type { Reading } from './reading';
import type { ReadOptions } from './readOptions';
import type { LogTable } from './rows/logTable';
import { readRows } from './rows/readRows';
import type { ThermalLog } from './thermalLog';

const MOST_COLUMNS = 1024;

/** A log as it stands in the file: numbers in the file's units on a time axis, nothing judged yet. */
export interface ParsedLog {
  readonly source: ThermalLog['source'];
  readonly text: LogText;
  readonly dialect: Dialect;
  readonly plan: ColumnPlan;
  readonly table: LogTable;
  readonly axis: ClockAxis;
  readonly startedAt?: string;
  readonly statements: LogStatements;
  /** Lines of readings of a file that has one to a line, which the table has put together. */
  readonly longLines?: number;
  /** Decisions so far; the stages to come add theirs. */
  readonly reading: Reading;
}

/**
 * Reads a file's bytes into a table: encoding, delimiter and decimal mark, header, use of the columns, rows,
 * clock.
 * @throws TemperbookError when one of these cannot be made out.
 */
export function parsedLog(file: SourceBytes, options: ReadOptions): ParsedLog {
  const written = logText(file, options.encoding);
  const notes = [...written.notes];
  const reading: Reading = { file: file.name, options, notes, open: [] };
  const { text, dialect, found, header, samples, pivoted } = layoutOf(written, reading);
  notes.push(...dialect.notes, ...header.notes);
  const plan = columnPlan(text, dialect, header, found.firstRow, samples, reading);
  const preamble = found.lines.filter((line) => header.preamble.includes(line.text));
  const namesRow = found.lines[found.lines.length - 1]?.row ?? 0;
  const statements = logStatements(preamble, plan.channels, namesRow);

  const headerTexts = found.lines.map((line) => line.text);
  const table = readRows(text, plan.read, found.firstRow, headerTexts, reading);
  if (pivoted) markAbsent(table, plan.read, pivoted);
  if (table.length < 2) throw tooFew(table, reading);
  const axis = clockAxis(table, plan.read.clock, plan.zoneMin !== undefined, reading);
  if (table.length < 2) throw tooFew(table, reading);
  const startedAt = startOf(axis, plan, headerStamp(header.preamble));
  const start = startedAt ? `; the log starts at ${startedAt}` : '';
  notes.push(`Rows come every ${formatDuration(axis.intervalS)} as a rule${start}.`);
  return {
    source: { name: file.name, bytes: file.bytes.length, sha256: file.sha256 },
    ...{ text, dialect, plan, table, axis, statements, reading },
    ...(pivoted ? { longLines: pivoted.lines } : {}),
    ...(startedAt ? { startedAt } : {}),
  };
}

interface Layout {
  readonly text: LogText;
  readonly dialect: Dialect;
  readonly found: HeaderLines;
  readonly header: Header;
  readonly samples: readonly ColumnSample[];
  readonly pivoted?: PivotedText;
}

/** How the file is laid out; one with a reading to a row is laid out anew with a column for each channel. */
function layoutOf(text: LogText, reading: Reading): Layout {
  const open: Reading['open'] = [];
  const sample = sampleLines(text);
  const dialect = sniffDialect(sample, { ...reading, open });
  if (dialect.width > MOST_COLUMNS) throw tooWide(dialect, reading);
  const found = findHeader(text, dialect, reading);
  const columns = columnsOf(sample, found, dialect);
  const long = longFile(columns.samples, reading);
  if (!long) {
    reading.open.push(...open);
    return { text, dialect, found, ...columns };
  }
  const pivoted = pivotText(text, found, dialect, columns.header, long, reading);
  const wide = sampleLines(pivoted.text);
  const ofWide = sniffDialect(wide, reading, pivoted.delimiter);
  return {
    text: pivoted.text,
    dialect: ofWide,
    found: pivoted.found,
    ...columnsOf(wide, pivoted.found, ofWide),
    pivoted,
  };
}

/** The header's columns, each with its fields in the sampled rows. */
function columnsOf(
  sample: readonly SampleLine[],
  found: HeaderLines,
  dialect: Dialect,
): Pick<Layout, 'header' | 'samples'> {
  const rows = sampledRows(sample, found, dialect);
  const header = readHeader(found.lines, dialect, rows[0] ?? []);
  return { header, samples: columnSamples(header.columns, rows, dialect.decimal) };
}

/** Sampled lines that are rows of the usual width, from the first row of the file on. */
function sampledRows(
  sample: readonly SampleLine[],
  { firstRow }: HeaderLines,
  { delimiter, width }: Dialect,
): string[][] {
  return sample
    .filter(({ row }) => row === 0 || row >= firstRow.row)
    .map(({ text }) => splitFields(text, delimiter))
    .filter((fields) => fields.length === width && isRowLike(fields));
}

/** Latest moment a date can have, µs. */
const LAST_US = 8.64e18;

function startOf({ startUs }: ClockAxis, plan: ColumnPlan, headerUs: number | undefined): string | undefined {
  const isEpoch = plan.read.clock.kind === 'count' && plan.read.clock.roundUs === 1;
  const us = startUs !== undefined && plan.startIsCertain ? startUs : headerUs;
  if (us === undefined || !(Math.abs(us) <= LAST_US)) return undefined;
  return isoStamp(us, us !== startUs ? undefined : isEpoch ? 0 : plan.zoneMin);
}

function tooWide({ width }: Dialect, reading: Reading): TemperbookError {
  const { file } = reading;
  return new TemperbookError('The rows have more fields than any logger has channels', {
    file,
    found: `${width} fields`,
    expected: `at most ${MOST_COLUMNS}`,
    remedy: 'Give the delimiter as option delimiter, or check that this is a log with one row for each time',
  });
}

function tooFew({ length, rejects, rejected, row }: LogTable, reading: Reading): TemperbookError {
  const { file } = reading;
  const first = rejects[0];
  const place = first ? { row: first.row, column: first.column } : length > 0 ? { row: row[0]! } : {};
  return new TemperbookError('Too few rows can be used', {
    file,
    ...place,
    found: first
      ? `${length} usable and ${rejected} unusable rows; in the first unusable one ${first.reason}`
      : `${length} row${length === 1 ? '' : 's'}`,
    expected: 'at least 2 rows with a time and a reading',
    remedy: first
      ? 'Mend that row, or say with an option how it is to be read'
      : 'Export the log again, with its readings',
  });
}
