import { TemperbookError } from '../../quantity';
import { median } from '../columns/columnSample';
import type { Reading } from '../reading';
import type { DateOrder } from '../readOptions';
import type { ClockChoice } from './chooseClock';
import { ELAPSED, formatOf, isTwoParts, statedFormat } from './clockFormat';
import { epochOf } from './epochOf';

/** An elapsed clock that starts within this is taken to show elapsed time, not the time of day. */
export const ELAPSED_START_S = 60;

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

/** Day number of 1970-01-01 in spreadsheets that count from 1900. Derived: 70 years, 17 leap days, and the two days too many of that count. */
const SERIAL_OF_1970 = 25_569;

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
