import { TemperbookError } from '../../quantity';
import { type ColumnSample, findColumn, median, risingShare } from '../columns/columnSample';
import { isClockName } from '../layout/units';
import { statedInterval } from '../logStatements';
import type { Reading } from '../reading';
import type { ClockFormat, DateOrder } from '../readOptions';
import { packedFormat } from './packedTime';
import { parseTime, US_PER_S } from './stamp';

/** How the time of a row is read. */
export type ClockPlan =
  /** Seconds from any zero: `value × timesS` or `value / perS`; `unsaid` when the file gives no unit. */
  | {
      readonly kind: 'elapsed';
      readonly column: number;
      readonly timesS: number;
      readonly perS: number;
      readonly unsaid: boolean;
    }
  /** Digits of a time of day, or of a date and a time, in one whole number: 93015 or 20250314093015. */
  | { readonly kind: 'packed'; readonly column: number; readonly dated: boolean }
  /** A number that counts from a fixed day, as microseconds: `round(value × timesUs) + addUs`. */
  | {
      readonly kind: 'count';
      readonly column: number;
      readonly timesUs: number;
      readonly roundUs: number;
      readonly addUs: number;
    }
  | { readonly kind: 'stamp'; readonly column: number; readonly order: DateOrder }
  /** `unsaid` when "0:15" may be minutes and seconds or hours and minutes. */
  | {
      readonly kind: 'time';
      readonly column: number;
      readonly form: 'h:m:s' | 'm:s';
      readonly unsaid: boolean;
    }
  | {
      readonly kind: 'date and time';
      readonly date: number;
      readonly column: number;
      readonly order: DateOrder;
    }
  | { readonly kind: 'rows'; readonly intervalS: number };

/** The clock's columns, before their format is settled. */
export interface ClockChoice {
  readonly clock?: ColumnSample;
  readonly date?: ColumnSample;
  /** Other clocks in the file. */
  readonly others: readonly ColumnSample[];
}

/**
 * Columns that hold a clock of any kind, in the order of the file. A column of numbers must go forward all
 * along, unless `lenient`: then a name or a unit of time is enough.
 */
function clockColumns(
  samples: readonly ColumnSample[],
  mapped: ReadonlySet<ColumnSample>,
  lenient: boolean,
): ColumnSample[] {
  const noNames = samples.every(({ column }) => !column.named);
  return samples.filter((sample, index) => {
    const { column, kind, numbers } = sample;
    if (mapped.has(sample)) return false;
    if (kind === 'stamp' || kind === 'time' || kind === 'date') return true;
    if (kind !== 'number' || (!lenient && risingShare(numbers) < 0.9)) return false;
    if (column.unit) return column.unit.quantity === 'time';
    if (isClockName(column.stem)) return true;
    if (lenient) return false;
    if (epochOf(median(numbers)) !== undefined) return true;
    return noNames && index === 0 && samples.length > 1 && isStrictlyRising(numbers);
  });
}

function isStrictlyRising(numbers: ArrayLike<number>): boolean {
  for (let i = 1; i < numbers.length; i++) if (!(numbers[i]! > numbers[i - 1]!)) return false;
  return numbers.length > 1;
}

/** Picks the clock: the first of the columns that tell rows apart about as well as the best does. */
export function chooseClock(
  samples: readonly ColumnSample[],
  mapped: ReadonlySet<ColumnSample>,
  preamble: readonly string[],
  reading: Reading,
): ClockChoice {
  const { file, options } = reading;
  const forward = clockColumns(samples, mapped, false);
  const found = forward.length > 0 ? forward : clockColumns(samples, mapped, true);
  if (options.intervalS !== undefined) return { others: found };
  const asked = options.clock?.column;
  if (asked !== undefined) {
    const [date, clock] = (typeof asked === 'string' ? [undefined, asked] : asked).map(
      (name) => name && findColumn(samples, name, 'clock.column', file),
    ) as [ColumnSample | undefined, ColumnSample];
    return { clock, ...(date ? { date } : {}), others: found.filter((s) => s !== clock && s !== date) };
  }
  const withTime = found.filter(({ kind }) => kind !== 'date');
  const distinct = ({ texts }: ColumnSample) => new Set(texts).size;
  const most = Math.max(0, ...withTime.map(distinct));
  const clock = withTime.find((sample) => distinct(sample) * 2 >= most) ?? found[0];
  const date =
    clock?.kind === 'time'
      ? found.find(({ kind, column }) => kind === 'date' && column !== clock.column)
      : undefined;
  if (clock)
    return { clock, ...(date ? { date } : {}), others: found.filter((s) => s !== clock && s !== date) };
  const hint = preamble.find(
    (line) => /interval|period|sampl\w* (?:rate|time)|abtast/i.test(line) && /\d/.test(line),
  );
  const heads = hint === undefined ? '' : ` (the header says "${hint.trim().slice(0, 60)}")`;
  throw new TemperbookError('No column holds the time', {
    file,
    found: `columns ${samples.map(({ column }) => `"${column.name}"`).join(', ')}`,
    expected: 'a column of seconds, of clock times or of dates with times',
    remedy: `Say how far apart the rows are, as option intervalS in seconds${heads}, or name the time column as option clock.column`,
  });
}

interface Epoch {
  readonly timesUs: number;
  readonly addUs: number;
  readonly what: string;
}

/** Seconds from 1904-01-01 to 1970-01-01: 66 years with 17 leap days. Derived. */
const SECONDS_1904_TO_1970 = 2_082_844_800;
/** Day number of 1970-01-01 in spreadsheets that count from 1900. Derived: 70 years, 17 leap days, and the two days too many of that count. */
const SERIAL_OF_1970 = 25_569;

/** Which count of seconds since some year a number of this size is; the years 1998 to 2039. */
function epochOf(value: number): Epoch | undefined {
  const isYears = (s: number) => s > 0.9e9 && s < 2.2e9;
  if (isYears(value)) return { timesUs: 1e6, addUs: 0, what: 'seconds since 1970' };
  if (isYears(value / 1e3)) return { timesUs: 1e3, addUs: 0, what: 'milliseconds since 1970' };
  if (isYears(value / 1e6)) return { timesUs: 1, addUs: 0, what: 'microseconds since 1970' };
  if (isYears(value - SECONDS_1904_TO_1970))
    return { timesUs: 1e6, addUs: -SECONDS_1904_TO_1970 * 1e6, what: 'seconds since 1904' };
  return undefined;
}

const ELAPSED: Readonly<Record<string, readonly [timesS: number, perS: number, word: string]>> = {
  s: [1, 1, 'seconds'],
  ms: [1, 1000, 'milliseconds'],
  min: [60, 1, 'minutes'],
  h: [3600, 1, 'hours'],
  d: [86_400, 1, 'days'],
};

/** Settles how the chosen columns are read, and says so. */
export function clockPlan(
  { clock, date }: ClockChoice,
  order: DateOrder,
  preamble: readonly string[],
  reading: Reading,
): ClockPlan {
  const { file, options, notes } = reading;
  if (options.intervalS !== undefined) {
    notes.push(`Rows are taken ${options.intervalS} s apart, as you said.`);
    return { kind: 'rows', intervalS: options.intervalS };
  }
  const { column, numbers, kind } = clock!;
  const name = `Time comes from column "${column.name}"`;
  const stated = options.clock?.format ? undefined : statedFormat(clock!, preamble);
  const format = options.clock?.format ?? stated?.format ?? formatOf(clock!, reading);
  const said = options.clock?.format
    ? ', as you said'
    : stated
      ? `, as the header line "${stated.line}" asks for`
      : '';
  if (date) {
    notes.push(
      `Time comes from the date in column "${date.column.name}" and the time in column "${column.name}".`,
    );
    return { kind: 'date and time', date: date.column.index, column: column.index, order };
  }
  if (format === 'stamp') {
    notes.push(`${name}: dates with times${said}.`);
    return { kind: 'stamp', column: column.index, order };
  }
  if (format === 'h:m:s' || format === 'm:s') {
    notes.push(`${name}, written ${format}${said}.`);
    const unsaid = said === '' && column.unit === undefined && isTwoParts(clock!.texts);
    return { kind: 'time', column: column.index, form: format, unsaid };
  }
  if (kind !== 'number')
    throw new TemperbookError('The time column does not hold numbers', {
      file,
      column: column.name,
      found: `"${clock!.texts.find((text) => text !== '') ?? ''}"`,
      remedy: `Option clock.format "${format}" does not fit it; leave it out, or say "h:m:s" or "stamp"`,
    });
  if (format === 'hhmmss' || format === 'yyyymmddhhmmss') {
    notes.push(`${name}: the digits of ${format}${said || ', as minutes and seconds never pass 59'}.`);
    return { kind: 'packed', column: column.index, dated: format === 'yyyymmddhhmmss' };
  }
  if (format === 'spreadsheet days') {
    notes.push(`${name}: the day numbers of a spreadsheet (45000 is 2023-03-15)${said}.`);
    return {
      kind: 'count',
      column: column.index,
      timesUs: 86_400e6,
      roundUs: 1000,
      addUs: -SERIAL_OF_1970 * 86_400e6,
    };
  }
  if (format === 'epoch s' || format === 'epoch ms') {
    const epoch = (options.clock?.format === undefined && epochOf(median(numbers))) || {
      timesUs: format === 'epoch s' ? 1e6 : 1e3,
      addUs: 0,
      what: format === 'epoch s' ? 'seconds since 1970' : 'milliseconds since 1970',
    };
    notes.push(`${name}: ${epoch.what}${said || ', going by their size'}.`);
    return { kind: 'count', column: column.index, timesUs: epoch.timesUs, roundUs: 1, addUs: epoch.addUs };
  }
  const [timesS, perS, word] = ELAPSED[format]!;
  const why = said || (column.unit ? '' : ', as no unit is given: option clock.format says otherwise');
  notes.push(`${name}: elapsed ${word}${why}.`);
  const unsaid = said === '' && column.unit === undefined;
  return { kind: 'elapsed', column: column.index, timesS, perS, unsaid };
}

function formatOf({ column, kind, numbers, texts }: ColumnSample, reading: Reading): ClockFormat | 'd' {
  const { file } = reading;
  if (kind === 'stamp' || kind === 'date') return 'stamp';
  if (kind === 'time') return timeForm(column.unit?.symbol, texts);
  if (column.unit && column.unit.symbol in ELAPSED) return column.unit.symbol as ClockFormat | 'd';
  const middle = median(numbers);
  const packed = packedFormat(numbers);
  if (packed) return packed;
  if (epochOf(middle)) return 'epoch s';
  const first = numbers.find((value) => !Number.isNaN(value)) ?? 0;
  const step = median(numbers.subarray(1).map((value, i) => value - numbers[i]!));
  const digits = Math.max(...texts.slice(0, 50).map((text) => text.split(/[.,]/)[1]?.length ?? 0));
  if (first >= 20_000 && middle < 80_000 && step < 0.05 && digits >= 3) return 'spreadsheet days';
  if (digits >= 5 && step > 0 && step < 0.01 && texts.length >= 10 && middle < 1 && first >= 0)
    throw new TemperbookError('The time column could hold seconds or fractions of a day', {
      file,
      column: column.name,
      found: `"${texts[0]}", "${texts[1]}"`,
      remedy: 'Say which, as option clock.format: "s" or "spreadsheet days"',
    });
  return 's';
}

/** The format in which the clock's steps are those the header gives as its interval. */
function statedFormat(
  { column, kind, numbers, texts }: ColumnSample,
  preamble: readonly string[],
): { readonly format: ClockFormat; readonly line: string } | undefined {
  if (column.unit) return undefined;
  const stated = statedInterval(preamble.map((text) => ({ text, row: 0 })));
  if (!stated) return undefined;
  const steps = (values: readonly number[]) => median(values.slice(1).map((value, i) => value - values[i]!));
  const fits = (step: number) => Math.abs(step - stated.intervalS) <= 0.02 * stated.intervalS;
  if (kind === 'time' && isTwoParts(texts)) {
    const inForm = (form: 'h:m:s' | 'm:s') =>
      steps(texts.slice(0, 100).map((text) => (parseTime(text, form)?.us ?? Number.NaN) / US_PER_S));
    const format = (['h:m:s', 'm:s'] as const).find((form) => fits(inForm(form)));
    return format && { format, line: stated.words };
  }
  if (kind !== 'number' || epochOf(median(numbers)) || packedFormat(numbers)) return undefined;
  const step = steps([...numbers.subarray(0, 100)]);
  const format = (['s', 'ms', 'min', 'h'] as const).find((unit) => {
    const [timesS, perS] = ELAPSED[unit]!;
    return fits((step * timesS) / perS);
  });
  return format && { format, line: stated.words };
}

const isTwoParts = (texts: readonly string[]): boolean => {
  const filled = texts.filter((text) => text.includes(':'));
  return filled.length > 0 && filled.every((text) => /^\d+:\d+(?:[.,]\d+)?$/.test(text));
};

/** Two parts are minutes and seconds when they have a fraction, when the unit says so, or when no day has such hours. */
function timeForm(unit: string | undefined, texts: readonly string[]): 'h:m:s' | 'm:s' {
  if (unit === 'h:m:s' || unit === 'm:s') return unit;
  if (!isTwoParts(texts)) return 'h:m:s';
  const filled = texts.filter((text) => text.includes(':'));
  return filled.some((text) => /[.,]/.test(text) || Number(text.split(':')[0]) > 23) ? 'm:s' : 'h:m:s';
}
