import { formatDuration, formatTemp, formatTempSpan } from '../../quantity';
import { lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import type { FaultKind } from '../faultKind';
import type { GapPolicy } from '../gapPolicy';
import type { LogTable, RejectRun } from '../rows/logTable';
import type { Fault } from '../thermalLog';
import { type ChannelData, distrusted, type Limits, type Stretch } from './channelData';
import { ABSENT, FAULT_KINDS } from './faultCodes';

/** What faults are told from. */
export interface FaultContext {
  readonly text: LogText;
  readonly delimiter: string;
  readonly table: LogTable;
  readonly timeS: Float64Array;
  readonly gaps: GapPolicy;
  readonly limits: Limits;
  /** Name of the clock's column. */
  readonly clockColumn: string;
}

interface Run {
  readonly channel: number;
  readonly from: number;
  to: number;
  readings: number;
  /** Trusted rows before and after it; −1 and the length for none. */
  readonly before: number;
  readonly after: number;
}

const LONGEST_VALUE = 60;

/** Faults of every channel, rows of one kind in a row as one fault. */
export function channelFaults(
  channels: readonly ChannelData[],
  trusted: readonly (readonly Stretch[])[],
  context: FaultContext,
): Fault[][] {
  const runs = channels.flatMap((channel, k) => runsOf(channel, k, trusted[k]!, context));
  const texts = fieldTexts(runs, context);
  const faults: Fault[][] = channels.map(() => []);
  runs.forEach((run, r) => {
    const channel = channels[run.channel]!;
    const { table, timeS } = context;
    const kind = FAULT_KINDS[channel.marks[run.from]! - 1]!;
    faults[run.channel]!.push({
      kind,
      row: table.row[run.from]!,
      lastRow: table.row[run.to]!,
      column: channel.column,
      value: texts[r]!,
      reason: sentence(
        `${reasonOf(kind, run, channel, texts[r]!, context)}; ${bridging(run, channel, context)}`,
      ),
      fromS: timeS[run.from]!,
      toS: timeS[run.to]!,
      readings: run.readings,
    });
  });
  return faults;
}

function runsOf(
  { marks, tempC }: ChannelData,
  channel: number,
  trusted: readonly Stretch[],
  { table, limits }: FaultContext,
): Run[] {
  const runs: Run[] = [];
  // Too low and too high are one kind but not one reason.
  const side = (i: number) => (tempC[i]! < limits.lowC ? -1 : 1);
  for (const { from, to } of distrusted(trusted, marks.length)) {
    let open: Run | undefined;
    for (let i = from; i <= to; i++) {
      if (marks[i] === ABSENT) open = undefined;
      else if (
        open !== undefined &&
        marks[open.from] === marks[i] &&
        side(open.from) === side(i) &&
        table.row[i]! > table.row[open.to]!
      ) {
        open.to = i;
        open.readings++;
      } else {
        open = { channel, from: i, to: i, readings: 1, before: from - 1, after: to + 1 };
        runs.push(open);
      }
    }
  }
  return runs;
}

/** The text that stands in the file at the start of each run; every line is split only once. */
function fieldTexts(runs: readonly Run[], { text, delimiter, table }: FaultContext): string[] {
  const texts = new Array<string>(runs.length).fill('');
  const order = runs.map((_, r) => r).sort((a, b) => runs[a]!.from - runs[b]!.from);
  let last = -1;
  let fields: string[] = [];
  for (const r of order) {
    const { channel, from } = runs[r]!;
    if (from !== last) {
      const line = lineAt(text, table.offset[from]!, 0);
      fields = splitFields(text.decode(line.from, line.to), delimiter);
      last = from;
    }
    const field = blockOf(table, table.row[from]!).fields[channel] ?? -1;
    texts[r] = (fields[field] ?? '').slice(0, LONGEST_VALUE);
  }
  return texts;
}

function blockOf({ blocks }: LogTable, row: number) {
  let low = 0;
  let high = blocks.length - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if (blocks[mid]!.row <= row) low = mid;
    else high = mid - 1;
  }
  return blocks[low]!;
}

function reasonOf(
  kind: FaultKind,
  { from, to }: Run,
  { tempC, remarks, unit }: ChannelData,
  text: string,
  { limits, timeS }: FaultContext,
): string {
  const remark = remarks.get(kind);
  if (remark) return remark;
  const value = tempC[from]!;
  const shown = Number.isNaN(value) ? `"${text}"` : formatTemp(value);
  const before = tempC[from - 1];
  const step = before === undefined || Number.isNaN(before) ? undefined : Math.abs(value - before);
  switch (kind) {
    case 'missing field':
      return unit === 'mV' && text !== ''
        ? 'there is no reading of the cold end in this row'
        : 'the field is empty';
    case 'not a number':
      return `"${text}" is not a reading`;
    case 'error token':
      return `"${text}" is the logger's word for a failed reading`;
    case 'open circuit':
      return Number.isNaN(value) || value >= limits.highC || value < limits.lowC || /[^\d.,+-]/.test(text)
        ? `"${text}" is what loggers write for an open input: a broken or loose thermocouple`
        : `${shown} right beside a lost signal or far from the readings around: an open or opening thermocouple`;
    case 'over range':
      if (Number.isNaN(value)) return `"${text}" is outside what the logger or the thermocouple can measure`;
      return value < limits.lowC
        ? `${shown} is colder than the ${formatTemp(limits.lowC)} believed: a loose, reversed or wrong-type thermocouple`
        : `${shown} is hotter than the ${formatTemp(limits.highC)} believed: an open or failing thermocouple`;
    case 'absolute zero':
      return `${shown} is absolute zero: a missing value or an open input`;
    case 'spike':
      return `the reading jumps ${step === undefined ? '' : `by ${formatTempSpan(step)} `}to ${shown} and back at once, as from an arc start: not heat in metal`;
    case 'impossible step':
      return `the reading steps ${step === undefined ? '' : `by ${formatTempSpan(step)} in ${formatDuration(timeS[from]! - (timeS[from - 1] ?? timeS[from]!))} `}to ${shown}, faster than metal can (${limits.maxRateCPerS} °C/s)`;
    case 'ramp between faults':
      return `the readings from ${shown} to ${formatTemp(tempC[to]!)} stand between two faults and do not fit what is before and after: a loose junction drifting`;
    case 'loose junction':
      return from === to
        ? `${shown} stands alone among failed readings: the probe was off the part just before and after`
        : `the readings jump to and fro from ${shown} on, or stand alone among failed ones: a junction coming off the part`;
    default:
      return 'the reading cannot be trusted';
  }
}

function bridging({ before, after }: Run, { every }: ChannelData, { gaps, timeS }: FaultContext): string {
  if (before < 0 && after >= timeS.length) return 'nothing of the channel is left';
  if (before < 0) return 'the trace begins after it';
  if (after >= timeS.length) return 'the trace ends before it';
  const span = formatDuration(timeS[after]! - timeS[before]!);
  return gaps.isGap(before, after, every)
    ? `left open as a gap of ${span}`
    : `bridged by a straight line over ${span}`;
}

const sentence = (text: string) => `${text[0]!.toUpperCase()}${text.slice(1)}.`;

/** Rejected rows and gaps of the clock, in the order of the file. */
export function rowFaults(rejects: readonly RejectRun[], context: FaultContext): Fault[] {
  const { table, timeS, text, gaps, clockColumn } = context;
  const place = rejects.length > 0 ? timeOfRow(table, timeS) : () => [0, 0] as const;
  const faults: Fault[] = [];
  let open: { -readonly [K in keyof Fault]: Fault[K] } | undefined;
  for (const run of [...rejects].sort((a, b) => a.row - b.row)) {
    const { row, lastRow, rows, offset, kind, column } = run;
    const fromS = place(row)[0];
    const toS = place(lastRow)[1];
    const reason = sentence(run.reason);
    if (open && open.kind === kind && open.reason === reason && open.lastRow === row - 1) {
      open.lastRow = lastRow;
      open.toS = Math.max(open.toS, toS);
      open.readings += rows;
      continue;
    }
    const line = lineAt(text, offset, row);
    const value = (
      run.value?.slice(0, LONGEST_VALUE) ??
      text.decode(line.from, Math.min(line.to, line.from + LONGEST_VALUE))
    ).trim();
    open = { kind, row, lastRow, column, value, reason, fromS, toS, readings: rows };
    faults.push(open);
  }
  for (const i of gaps.afterRow) {
    const span = formatDuration(timeS[i + 1]! - timeS[i]!);
    faults.push({
      kind: 'gap',
      row: table.row[i]!,
      lastRow: table.row[i + 1]!,
      column: clockColumn,
      value: span,
      reason: `No rows for ${span}, longer than the ${formatDuration(gaps.limitS)} that are bridged; the time is counted as not recorded.`,
      fromS: timeS[i]!,
      toS: timeS[i + 1]!,
      readings: 0,
    });
  }
  return faults.sort((a, b) => a.row - b.row);
}

/** Times of the used rows before and after a line of the file. */
function timeOfRow({ row, length }: LogTable, timeS: Float64Array): (line: number) => [number, number] {
  const lines = row.subarray(0, length);
  const isInOrder = lines.every((line, i) => i === 0 || line > lines[i - 1]!);
  const order = isInOrder ? undefined : Uint32Array.from(lines.keys()).sort((a, b) => lines[a]! - lines[b]!);
  const at = (k: number) => order?.[k] ?? k;
  return (line) => {
    let low = 0;
    let high = length;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (lines[at(mid)]! < line) low = mid + 1;
      else high = mid;
    }
    const before = timeS[at(Math.max(0, low - 1))]!;
    const after = timeS[at(Math.min(length - 1, low))]!;
    return [Math.min(before, after), Math.max(before, after)];
  };
}
