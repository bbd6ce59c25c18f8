import { TemperbookError } from '../../quantity';
import { type LineSpan, lineAt, splitFields } from '../bytes/lines';
import type { LogText } from '../bytes/logText';
import { asideClock } from '../clock/asideClock';
import { chooseClock } from '../clock/chooseClock';
import { clockPlan } from '../clock/clockPlan';
import { type DateText, decideDateOrder, orderTellingDates } from '../clock/dateOrder';
import { ambiguousParts, parseStamp, splitStamp } from '../clock/stamp';
import type { Dialect } from '../layout/dialect';
import type { Header } from '../layout/header';
import type { Reading } from '../reading';
import type { TempUnit } from '../readOptions';
import type { ReadPlan } from '../rows/rowLayout';
import type { LeftAside } from '../thermalLog';
import { type ColumnSample, findColumn } from './columnSample';
import { type StatusColumn, statusColumns } from './statusColumns';
import { type ColumnUses, temperatureColumns } from './temperatureColumns';
import { temperatureUnits } from './temperatureUnits';
import { unitsInColumns } from './unitColumn';

/** Everything decided about the columns before the rows are read. */
export interface ColumnPlan {
  readonly read: ReadPlan;
  readonly channels: readonly { readonly name: string; readonly column: string; readonly unit: TempUnit }[];
  readonly referenceUnit: Exclude<TempUnit, 'mV'>;
  readonly leftAside: readonly LeftAside[];
  /** Columns that say of each row whether its readings hold. */
  readonly status: readonly StatusColumn[];
  readonly clockColumn: string;
  /** Minutes east of Greenwich of the stamps, when they say so. */
  readonly zoneMin?: number;
  /** False when only the date of the start hangs on the order of day and month, which nobody knows. */
  readonly startIsCertain: boolean;
}

/** Decides what each column is: clock, temperature, cold end, or left aside. */
export function columnPlan(
  text: LogText,
  dialect: Dialect,
  header: Header,
  firstRow: LineSpan,
  samples: readonly ColumnSample[],
  reading: Reading,
): ColumnPlan {
  const { file, options, notes } = reading;
  const mapped = new Set(
    Object.keys(options.columns ?? {}).map((key) => findColumn(samples, key, 'columns', file)),
  );
  const choice = chooseClock(samples, mapped, header.preamble, reading);
  const dated = choice.date ?? choice.clock;
  const isDated = dated?.kind === 'stamp' || dated?.kind === 'date';
  const order = decideDateOrder(
    isDated ? datesOf(text, dialect, firstRow, dated) : [],
    dated?.column.name ?? '',
    reading,
  );
  const clock = clockPlan(choice, order.order, header.preamble, reading);
  if (order.note) notes.push(order.note);

  const clocks = new Map<ColumnSample, string>(
    choice.others.map((other) => [other, asideClock(other, choice.clock, reading)] as const),
  );
  if (choice.clock) clocks.set(choice.clock, '');
  if (choice.date) clocks.set(choice.date, '');
  const found = temperatureColumns(samples, clocks, reading);
  const channels = found.channels.map(({ sample }) => sample);
  const inColumn = unitsInColumns(samples, channels, text, dialect.delimiter, firstRow, reading);
  const allUnits = temperatureUnits(found.channels, header.preamble, inColumn, reading);
  const uses = withoutEmf(found, allUnits, reading);
  const needsReference = uses.units.includes('mV') && options.thermocouple?.referenceC === undefined;
  const reference = needsReference ? requireReference(uses, reading) : undefined;
  const stampText = choice.clock?.kind === 'stamp' ? (choice.clock.texts[0] ?? '') : '';
  const zoneMin = parseStamp(stampText, order.order)?.zoneMin;
  let emptyTail = 0;
  while (emptyTail < dialect.width - 1 && samples[dialect.width - 1 - emptyTail]?.kind === 'empty')
    emptyTail++;
  return {
    read: {
      dialect,
      header,
      clock,
      channels: uses.channels.map(({ sample }) => sample.column),
      units: uses.units,
      ...(reference ? { reference: reference.column } : {}),
      emptyTail,
    },
    channels: uses.channels.map(({ sample, name }, k) => ({
      name,
      column: sample.column.name,
      unit: uses.units[k]!,
    })),
    referenceUnit: (reference?.column.unit?.symbol ?? '°C') as '°C',
    leftAside: uses.leftAside,
    status: statusColumns(
      samples.filter((one) => !clocks.has(one) && uses.channels.every(({ sample }) => sample !== one)),
      uses.channels.map(({ sample }) => sample.column),
    ),
    clockColumn: choice.clock?.column.name ?? '',
    ...(zoneMin === undefined ? {} : { zoneMin }),
    startIsCertain: order.certain,
  };
}

/** Bytes of a written date. */
const DATE_BYTES = 10;

/** Dates that can tell the order: from the sample when one there does, else from the whole file. */
function datesOf(
  text: LogText,
  dialect: Dialect,
  firstRow: LineSpan,
  { column, texts }: ColumnSample,
): DateText[] {
  const sampled = orderTellingDates(texts.map((stamp) => ({ text: stamp, row: 0 })));
  const tells = sampled.some(({ text: date }) => ambiguousParts(date)!.some((part) => part > 12));
  if (sampled.length === 0 || (tells && text.length > 1e6)) return sampled;
  const dates: DateText[] = [];
  let last = '';
  let lastStart = Buffer.alloc(0);
  for (let line = firstRow; ; line = lineAt(text, line.next, line.row + 1)) {
    const start = Buffer.from(text.piece(line.from, line.from + DATE_BYTES));
    // Where lines begin with the same date, nothing new is to be learnt from the second.
    if (column.index !== 0 || !start.equals(lastStart)) {
      const field = splitFields(text.decode(line.from, line.to), dialect.delimiter)[column.index] ?? '';
      const date = splitStamp(field)?.date ?? '';
      if (date !== last && ambiguousParts(date)) {
        dates.push({ text: date, row: line.row });
        last = date;
      }
    }
    lastStart = start;
    if (line.next >= text.length) return dates;
  }
}

interface UsesWithUnits extends ColumnUses {
  readonly units: readonly TempUnit[];
}

/** Columns in mV are temperatures only once the thermocouple is known. */
function withoutEmf(uses: ColumnUses, units: readonly TempUnit[], reading: Reading): UsesWithUnits {
  const { file, options, notes } = reading;
  const { thermocouple } = options;
  if (thermocouple) {
    const { type, referenceC } = thermocouple;
    if (!units.includes('mV')) notes.push('Option thermocouple is not used, as no column is in mV.');
    else
      notes.push(
        `Readings in mV are converted for a type ${type} thermocouple, its cold end at ${referenceC === undefined ? `the reading of column "${uses.reference?.column.name ?? ''}"` : `${referenceC} °C`}.`,
      );
    return { ...uses, units };
  }
  const isEmf = (_: unknown, k: number) => units[k] === 'mV';
  const emf = uses.channels.filter(isEmf).map(({ sample }) => sample.column.name);
  if (emf.length === 0) return { ...uses, units };
  if (emf.length === units.length)
    throw new TemperbookError('The readings are in mV, and nothing says of which thermocouple', {
      file,
      column: emf[0]!,
      found: 'mV',
      remedy:
        'Give option thermocouple, as { type: "K", referenceC: 25 } or { type: "K", referenceColumn: "CJ" }; referenceC is the temperature of the cold end, 0 when the logger has already compensated it',
    });
  const leftAside = emf.map((name) => ({
    name,
    unit: 'mV',
    why: 'it is in mV; option thermocouple (type and cold end) makes it a temperature',
  }));
  return {
    ...uses,
    channels: uses.channels.filter((channel, k) => !isEmf(channel, k)),
    units: units.filter((unit) => unit !== 'mV'),
    leftAside: [...uses.leftAside, ...leftAside],
  };
}

function requireReference({ reference, units, channels }: UsesWithUnits, reading: Reading): ColumnSample {
  const { file } = reading;
  if (reference) return reference;
  throw new TemperbookError('The readings are in mV, and nothing says how warm the cold end was', {
    file,
    column: channels[units.indexOf('mV')]!.sample.column.name,
    remedy:
      'Give option thermocouple.referenceC (°C; 0 when the logger has already compensated the cold end) or thermocouple.referenceColumn',
  });
}
