import { TemperbookError } from '../../quantity';
import type { Reading } from '../reading';
import type { DateOrder } from '../readOptions';
import { ambiguousParts, parseDate, splitStamp } from './stamp';

/** A written date and where it first stands. */
export interface DateText {
  readonly text: string;
  readonly row: number;
}

/** How the parts of a file's dates are ordered; `startOnly` when only the date of the start hangs on it. */
export interface OrderDecision {
  readonly order: DateOrder;
  /** False when the file cannot tell and no reading depends on it. */
  readonly certain: boolean;
  readonly note?: string;
}

/** Dates on which an order can be told, "a/b/year", out of stamps or lone dates; repeats left out. */
export function orderTellingDates(texts: readonly DateText[]): DateText[] {
  const dates: DateText[] = [];
  for (const { text, row } of texts) {
    const date = splitStamp(text)?.date ?? '';
    if (dates[dates.length - 1]?.text !== date && ambiguousParts(date)) dates.push({ text: date, row });
  }
  return dates;
}

/**
 * Tells day-first from month-first dates: by a part above 12; else by which reading makes one day follow
 * another; dates with points are day first by custom. One date in the whole file needs no telling, as the
 * time between rows is the same either way.
 * @throws TemperbookError when both readings are possible and give different times, or neither is.
 */
export function decideDateOrder(dates: readonly DateText[], column: string, reading: Reading): OrderDecision {
  const { file, options } = reading;
  const asked = options.clock?.dateOrder;
  if (asked) return { order: asked, certain: true, note: `Dates are read ${asked}, as you said.` };
  if (dates.length === 0) return { order: 'year first', certain: true };
  let dayFirst: DateText | undefined;
  let monthFirst: DateText | undefined;
  for (const date of dates) {
    const [a, b] = ambiguousParts(date.text)!;
    if (a > 12) dayFirst ??= date;
    if (b > 12) monthFirst ??= date;
  }
  if (dayFirst && monthFirst) {
    if (dates.every(({ text }) => !Number.isNaN(parseDate(text, 'year first'))))
      return {
        order: 'year first',
        certain: true,
        note: `Dates are read year first, as "${dayFirst.text}" asks for.`,
      };
    throw new TemperbookError('The dates contradict each other', {
      file,
      row: monthFirst.row || dayFirst.row,
      column,
      found: `"${dayFirst.text}", which has the day first, and "${monthFirst.text}", which has the month first`,
      remedy: 'Cut the file where the date format changes and read the parts one by one',
    });
  }
  if (dayFirst) return { order: 'day first', certain: true, note: told('day', dayFirst) };
  if (monthFirst) return { order: 'month first', certain: true, note: told('month', monthFirst) };
  const distinct = new Set(dates.map(({ text }) => text));
  if (dates[0]!.text.includes('.'))
    return {
      order: 'day first',
      certain: true,
      note: `Dates like "${dates[0]!.text}" are read day first, as is the custom with points.`,
    };
  if (distinct.size === 1)
    return {
      order: 'day first',
      certain: false,
      note: `Whether "${dates[0]!.text}" has the day or the month first cannot be told from the file; no time in it depends on that, only the date of the start, which is left open (option clock.dateOrder settles it).`,
    };
  const byDay = largestStep(dates, 'day first');
  const byMonth = largestStep(dates, 'month first');
  const pair = `"${dates[0]!.text}" and "${dates[1]!.text}"`;
  if (byDay <= 7 && byMonth >= 25)
    return {
      order: 'day first',
      certain: true,
      note: `Dates are read day first: then ${pair} follow each other.`,
    };
  if (byMonth <= 7 && byDay >= 25)
    return {
      order: 'month first',
      certain: true,
      note: `Dates are read month first: then ${pair} follow each other.`,
    };
  throw new TemperbookError('The dates can be read day first or month first', {
    file,
    ...(dates[0]!.row ? { row: dates[0]!.row } : {}),
    column,
    found: pair,
    remedy: 'Say which, as option clock.dateOrder: "day first" or "month first"',
  });
}

const told = (part: string, { text, row }: DateText) =>
  `Dates are read ${part} first, as "${text}"${row ? ` in row ${row}` : ''} can only be read so.`;

function largestStep(dates: readonly DateText[], order: DateOrder): number {
  let largest = 0;
  for (let i = 1; i < dates.length; i++)
    largest = Math.max(
      largest,
      Math.abs(parseDate(dates[i]!.text, order) - parseDate(dates[i - 1]!.text, order)),
    );
  return largest;
}
