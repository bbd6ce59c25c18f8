import { formatDuration, TemperbookError } from '../quantity';
import { type ChannelData, isTrusted, type Limits } from './channelData';
import { channelHistories } from './channelHistory';
import { type ClockAxis, clockAxis } from './clockAxis';
import { type ColumnPlan, columnPlan } from './columnPlan';
import { type Dialect, isRowLike, sniffDialect } from './dialect';
import { ABSENT, TRUSTED } from './faultCodes';
import { channelFaults, type FaultContext, rowFaults } from './faultList';
import { detectFaults } from './faults/detectFaults';
import { type EmfConversion, markZeroStart, toCelsius } from './faults/sentinels';
import { gapPolicy } from './gapPolicy';
import { findHeader, type HeaderLines, readHeader } from './header';
import { headerStamp } from './headerStamp';
import { type SampleLine, sampleLines, splitFields } from './lines';
import type { LogTable } from './logTable';
import { logText } from './logText';
import { accountNotes, faultNotes } from './notes';
import { checkOptions, type ReadOptions } from './readOptions';
import { readRows } from './readRows';
import { sourceBytes } from './sourceBytes';
import { isoStamp } from './stamp';
import { fromUnit } from './temperatureUnits';
import type { RowAccount, ThermalLog } from './thermalLog';

const MOST_COLUMNS = 1024;

/**
 * Reads a logger's file into temperature channels in °C on one time axis in seconds, with an account of every
 * row and a reason for every reading left out. `source` is a path or the bytes of the file. Whatever is
 * decided from the file is said in `notes`, and each decision can be taken out of its hands by an option.
 * Time and memory grow in step with the file.
 *
 * The stages, one file each: bytes (`sourceBytes`), encoding (`logText`), delimiter and decimal mark
 * (`dialect`), header (`header`), use of the columns (`columnPlan`), rows (`readRows`), clock (`clockAxis`),
 * faults (`faults/`), histories (`channelHistory`).
 *
 * To teach it a new oddity: write a fixture in test/log with the oddity and what should come of it; find the
 * stage that meets it first, and change only that. A new word for "no reading" goes into `errorTokens`, a
 * number for it into `faults/sentinels`, a unit into `units`, a date or time form into `stamp`, a name for a
 * kind of column into `temperatureColumns`, a jump of the clock into `clockAxis`. A new kind of fault is a
 * `FaultKind`, a file in `faults/` that marks readings, a line in `faults/detectFaults` and a sentence in
 * `faultList`. Marks only ever hide readings: no stage changes, moves or invents one. Say in `notes` what was
 * decided, and run the property tests: the account of the rows must still add up.
 *
 * @throws TemperbookError when the file cannot be opened or read; it names the first offending row and what
 * would make the file readable.
 */
export function readLog(source: string | Uint8Array, options: ReadOptions = {}): ThermalLog {
  checkOptions(options);
  const file = sourceBytes(source, options.name);
  const text = logText(file.bytes, file.name, options.encoding);
  const notes = [...text.notes];

  const sample = sampleLines(text);
  const dialect = sniffDialect(sample, file.name, options);
  if (dialect.width > MOST_COLUMNS) throw tooWide(dialect, file.name);
  notes.push(...dialect.notes);
  const found = findHeader(text, dialect, file.name);
  const rows = sampledRows(sample, found, dialect);
  const header = readHeader(found.lines, dialect, rows[0] ?? []);
  notes.push(...header.notes);
  const plan = columnPlan(text, dialect, header, found.firstRow, rows, file.name, options, notes);

  const headerTexts = found.lines.map((line) => line.text);
  const table = readRows(text, plan.read, found.firstRow, headerTexts, notes);
  if (table.length < 2) throw tooFew(table, file.name);
  const axis = clockAxis(table, plan.read.clock, plan.zoneMin !== undefined, file.name, notes);
  if (table.length < 2) throw tooFew(table, file.name);
  const startedAt = startOf(axis, plan, headerStamp(header.preamble));
  notes.push(
    `Rows come every ${formatDuration(axis.intervalS)} as a rule${startedAt ? `; the log starts at ${startedAt}` : ''}.`,
  );

  const limits: Limits = { lowC: -50, highC: 1370, maxRateCPerS: 400, ...given(options.limits) };
  const channels = channelData(table, plan);
  const emf = emfConversion(table, plan, options);
  markZeroStart(channels);
  const scans = channels.map((channel) => toCelsius(channel, limits, options.sentinels, emf));
  detectFaults(channels, scans, axis.timeS, limits, options.accept ?? [], notes);

  const gaps = gapPolicy(axis.timeS, axis.intervalS, axis.breaks, options.limits?.gapS);
  const context: FaultContext = {
    ...{ text, table, gaps, limits, timeS: axis.timeS },
    delimiter: dialect.delimiter,
    clockColumn: plan.clockColumn,
  };
  const faults = channelFaults(channels, context);
  const account = rowAccount(channels, table);
  const samples = channelHistories(channels, axis.timeS, table.row.subarray(0, table.length), gaps);
  const read = channels.map(({ name, unit }, k) => ({
    name,
    unit: '°C',
    sourceUnit: unit,
    ...samples[k]!,
    faults: faults[k]!,
  }));
  const rowless = rowFaults(table.rejects, context);
  const clockGaps = rowless.filter(({ kind }) => kind === 'gap').length;
  for (const { name, column, unit } of plan.channels)
    if (unit !== '°C' || name !== column)
      notes.push(
        `Channel "${name}" is column "${column}"${unit === '°C' ? '' : `, converted from ${unit} to °C`}.`,
      );
  for (const { name, why } of plan.leftAside) notes.push(`Column "${name}" is left aside: ${why}.`);
  notes.push(...faultNotes(read));
  notes.push(...accountNotes(account, limits, gaps, options.limits?.gapS !== undefined, clockGaps));
  return {
    source: { name: file.name, bytes: file.bytes.length, sha256: file.sha256 },
    channels: read,
    leftAside: plan.leftAside,
    rows: account,
    rowFaults: rowless,
    intervalS: axis.intervalS,
    ...(startedAt ? { startedAt } : {}),
    notes,
  };
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

function channelData({ cells, marks, length }: LogTable, { channels }: ColumnPlan): ChannelData[] {
  return channels.map((channel, k) => ({
    ...channel,
    tempC: cells[k]!.subarray(0, length),
    marks: marks[k]!.subarray(0, length),
    remarks: new Map(),
    breaks: new Set(),
  }));
}

function emfConversion(
  { reference, length }: LogTable,
  { referenceUnit, channels }: ColumnPlan,
  { thermocouple }: ReadOptions,
): EmfConversion | undefined {
  if (!thermocouple || !channels.some(({ unit }) => unit === 'mV')) return undefined;
  const { type, referenceC } = thermocouple;
  if (referenceC !== undefined) return { type, referenceC };
  return { type, referenceC: reference!.subarray(0, length).map((value) => fromUnit(value, referenceUnit)) };
}

function given<T extends object>(limits: T | undefined): Partial<T> {
  return Object.fromEntries(
    Object.entries(limits ?? {}).filter(([, value]) => value !== undefined),
  ) as Partial<T>;
}

function rowAccount(channels: readonly ChannelData[], { length, rejects }: LogTable): RowAccount {
  const isFlagged = new Uint8Array(length);
  for (const { marks } of channels)
    if (!isTrusted(marks))
      for (let i = 0; i < length; i++) if (marks[i] !== TRUSTED && marks[i] !== ABSENT) isFlagged[i] = 1;
  const flagged = isFlagged.reduce((sum, flag) => sum + flag, 0);
  return { read: length + rejects.length, kept: length - flagged, flagged, rejected: rejects.length };
}

/** Latest moment a date can have, µs. */
const LAST_US = 8.64e18;

function startOf({ startUs }: ClockAxis, plan: ColumnPlan, headerUs: number | undefined): string | undefined {
  const isEpoch = plan.read.clock.kind === 'count' && plan.read.clock.roundUs === 1;
  const us = startUs !== undefined && plan.startIsCertain ? startUs : headerUs;
  if (us === undefined || !(Math.abs(us) <= LAST_US)) return undefined;
  return isoStamp(us, us !== startUs ? undefined : isEpoch ? 0 : plan.zoneMin);
}

function tooWide({ width }: Dialect, file: string): TemperbookError {
  return new TemperbookError('The rows have more fields than any logger has channels', {
    file,
    found: `${width} fields`,
    expected: `at most ${MOST_COLUMNS}`,
    remedy: 'Give the delimiter as option delimiter, or check that this is a log with one row for each time',
  });
}

function tooFew({ length, rejects, row }: LogTable, file: string): TemperbookError {
  const first = rejects[0];
  const place = first ? { row: first.row, column: first.column } : length > 0 ? { row: row[0]! } : {};
  return new TemperbookError('Too few rows can be used', {
    file,
    ...place,
    found: first
      ? `${length} usable and ${rejects.length} unusable rows; in the first unusable one ${first.reason}`
      : `${length} row${length === 1 ? '' : 's'}`,
    expected: 'at least 2 rows with a time and a reading',
    remedy: first
      ? 'Mend that row, or say with an option how it is to be read'
      : 'Export the log again, with its readings',
  });
}
