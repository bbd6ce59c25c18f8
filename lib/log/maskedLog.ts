import type { SourceBytes } from './bytes/sourceBytes';
import type { ClockAxis } from './clock/clockAxis';
import { openClock } from './clock/openClock';
import type { ColumnPlan } from './columns/columnPlan';
import { markByStatus } from './columns/statusColumns';
import { fromUnit } from './columns/unitScales';
import {
  type ChannelData,
  distrusted,
  type Limits,
  type Stretch,
  trustedStretches,
} from './faults/channelData';
import { detectFaults } from './faults/detectFaults';
import { ABSENT } from './faults/faultCodes';
import { channelFaults, type FaultContext, rowFaults } from './faults/faultList';
import { type EmfConversion, markZeroStart, toCelsius } from './faults/sentinels';
import { rowsBetween, sparseChannels } from './faults/sparse';
import { type GapPolicy, gapPolicy } from './gapPolicy';
import type { LogStatements } from './logStatements';
import { type ParsedLog, parsedLog } from './parsedLog';
import type { Reading } from './reading';
import type { ReadOptions } from './readOptions';
import type { LogTable } from './rows/logTable';
import type { Fault, OpenReading, RowAccount } from './thermalLog';

/** A log in °C in which every reading not trusted is marked and every mark explained. */
export interface MaskedLog
  extends Pick<ParsedLog, 'source' | 'plan' | 'axis' | 'startedAt' | 'statements' | 'reading'> {
  readonly channels: readonly ChannelData[];
  /** Stretches of trusted readings of each channel, and its faults. */
  readonly trusted: readonly (readonly Stretch[])[];
  readonly faults: readonly Fault[][];
  readonly rowFaults: readonly Fault[];
  readonly rows: RowAccount;
  /** Time of the file's last row, s: rows at its end that are not used are taken to come as regularly as the others. */
  readonly lastRowS: number;
  /** Line of the file each row stands on. */
  readonly lines: Uint32Array;
  readonly gaps: GapPolicy;
  readonly limits: Limits;
}

/**
 * Converts a file's numbers to °C, marks what cannot be trusted, and accounts for every row. The file's bytes
 * are needed for the last time here, to quote what stood in the faulty rows.
 */
export function maskedLog(source: SourceBytes, options: ReadOptions): MaskedLog {
  const { text, dialect, table, longLines, ...parsed } = parsedLog(source, options);
  const { plan, axis, reading } = parsed;
  const limits: Limits = { lowC: -50, highC: 1370, maxRateCPerS: 400, ...given(options.limits) };
  const channels = channelData(table, plan, longLines !== undefined, reading);
  if (longLines === undefined) markByStatus(plan.status, channels, table, text, dialect.delimiter);
  const emf = emfConversion(table, plan, options);
  if (options.riseOverC === undefined) markZeroStart(channels);
  const scans = channels.map((channel) =>
    toCelsius(channel, limits, options.sentinels, emf, options.riseOverC),
  );
  const lines = table.row.subarray(0, table.length);
  detectFaults(channels, scans, axis.timeS, lines, limits, options.accept ?? [], reading);
  const clockIsOpen = openClock(plan.read.clock, axis, channels, parsed.statements.interval, reading);
  if (clockIsOpen) reading.open.push(clockIsOpen);
  const wireIsOpen = openWire(channels, parsed.statements, options);
  if (wireIsOpen) reading.open.push(wireIsOpen);
  const trusted = channels.map(({ marks }) => trustedStretches(marks));
  const gaps = gapPolicy(axis.timeS, axis.intervalS, axis.breaks, options.limits?.gapS);
  const context: FaultContext = {
    ...{ text, table, gaps, limits, timeS: axis.timeS },
    delimiter: dialect.delimiter,
    clockColumn: plan.clockColumn,
  };
  return {
    ...parsed,
    ...{ channels, gaps, limits },
    trusted,
    faults: channelFaults(channels, trusted, context),
    rowFaults: rowFaults(table.rejects, context),
    rows:
      longLines === undefined
        ? rowAccount(channels, trusted, table)
        : lineAccount(channels, trusted, longLines),
    lastRowS: lastRowS(table, axis),
    lines,
  };
}

function lastRowS({ length, row, rejects }: LogTable, { timeS, intervalS }: ClockAxis): number {
  const last = row[length - 1]!;
  const after = rejects.filter((run) => run.row > last && !run.isNoRow);
  const isInOrder = after.length > 0 && row.subarray(0, length).every((line) => line <= last);
  const count = isInOrder ? after.reduce((sum, { rows }) => sum + rows, 0) : 0;
  return timeS[length - 1]! + intervalS * count;
}

/** The wire you gave against the one the file names: in mV, every reading hangs on it. */
function openWire(
  channels: readonly ChannelData[],
  { wire }: LogStatements,
  options: ReadOptions,
): OpenReading | undefined {
  const { thermocouple } = options;
  if (!thermocouple || !wire || wire.type === thermocouple.type) return undefined;
  if (!channels.some(({ unit }) => unit === 'mV')) return undefined;
  return {
    of: 'wire',
    option: 'thermocouple',
    because: `The file says "${wire.words.slice(0, 60)}", and you said type ${thermocouple.type}.`,
    taken: { words: `type ${thermocouple.type}`, options },
    other: [
      {
        words: `type ${wire.type}`,
        options: { ...options, thermocouple: { ...thermocouple, type: wire.type } },
      },
    ],
  };
}

function channelData(
  { cells, marks, length }: LogTable,
  { channels }: ColumnPlan,
  isLong: boolean,
  reading: Reading,
): ChannelData[] {
  const named = channels.map((channel, k) => ({ ...channel, marks: marks[k]!.subarray(0, length) }));
  const every = isLong ? named.map(({ marks }) => rowsBetween(marks)) : sparseChannels(named, reading);
  return named.map((channel, k) => ({
    ...channel,
    every: every[k]!,
    tempC: cells[k]!.subarray(0, length),
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

function rowAccount(
  channels: readonly ChannelData[],
  trusted: readonly (readonly Stretch[])[],
  { length, rejected }: LogTable,
): RowAccount {
  const isFlagged = new Uint8Array(length);
  let flagged = 0;
  channels.forEach(({ marks }, k) => {
    for (const { from, to } of distrusted(trusted[k]!, length))
      for (let i = from; i <= to; i++) {
        if (marks[i] === ABSENT || isFlagged[i] === 1) continue;
        isFlagged[i] = 1;
        flagged++;
      }
  });
  return { read: length + rejected, kept: length - flagged, flagged, rejected };
}

/** The account of a file with a reading to a line: every line is a reading kept, one left out, or a line not used. */
function lineAccount(
  channels: readonly ChannelData[],
  trusted: readonly (readonly Stretch[])[],
  read: number,
): RowAccount {
  let kept = 0;
  let flagged = 0;
  channels.forEach(({ marks }, k) => {
    for (const { from, to } of trusted[k]!) kept += to - from + 1;
    for (const { from, to } of distrusted(trusted[k]!, marks.length))
      for (let i = from; i <= to; i++) if (marks[i] !== ABSENT) flagged++;
  });
  return { read, kept, flagged, rejected: read - kept - flagged };
}
