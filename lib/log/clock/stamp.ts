import type { DateOrder } from '../readOptions';

/** Microseconds: fine enough for any logger, and a date in them is still an exact number. */
export const US_PER_S = 1e6;
/** Microseconds of a day without leap seconds, as clocks count. */
export const US_PER_DAY = 86_400 * US_PER_S;

const MONTHS: Readonly<Record<string, number>> = {
  ...{ jan: 1, feb: 2, mar: 3, apr: 4, may: 5, jun: 6, jul: 7, aug: 8, sep: 9, oct: 10, nov: 11, dec: 12 },
  ...{ mär: 3, mrz: 3, mai: 5, okt: 10, dez: 12 },
  ...{ jän: 1, fév: 2, fev: 2, avr: 4, jui: 6, aoû: 8, aou: 8, déc: 12 },
  ...{ ene: 1, abr: 4, ago: 8, set: 9, dic: 12, gen: 1, mag: 5, giu: 6, lug: 7, ott: 10 },
};

const NUMERIC_DATE = /^(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})\.?$/;
const DAY_MONTH_NAME = /^(\d{1,2})\.?[-/ ]?([a-zäéû]{3,9})\.?,?[-/ ]?(\d{4}|\d{2})$/i;
const MONTH_NAME_DAY = /^([a-zäéû]{3,9})\.?[-/ ]?(\d{1,2}),?[-/ ](\d{4})$/i;
const LONGEST_STAMP = 64;

/** Days from 1970-01-01 of a calendar date, NaN when there is no such day. */
function days(year: number, month: number, day: number): number {
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN;
  const ms = Date.UTC(year, month - 1, day);
  return new Date(ms).getUTCDate() === day ? ms / 86_400_000 : Number.NaN;
}

/** Two-digit years: 80 to 99 are 1980 to 1999, the others 2000 to 2079. */
const fullYear = (digits: string) =>
  digits.length > 2 ? Number(digits) : Number(digits) + (Number(digits) < 80 ? 2000 : 1900);

/** Days from 1970-01-01 of a written date, NaN when it is none in this order. A four-digit year shows where it is. */
export function parseDate(text: string, order: DateOrder): number {
  const numeric = NUMERIC_DATE.exec(text);
  if (numeric) {
    const [, a, , b, c] = numeric as unknown as [string, string, string, string, string];
    if (a.length > 2)
      return a.length === 4 && c.length <= 2 ? days(Number(a), Number(b), Number(c)) : Number.NaN;
    if (c.length === 3) return Number.NaN;
    if (order === 'year first' && c.length <= 2) return days(fullYear(a), Number(b), Number(c));
    return order === 'month first'
      ? days(fullYear(c), Number(a), Number(b))
      : days(fullYear(c), Number(b), Number(a));
  }
  const dayFirst = DAY_MONTH_NAME.exec(text);
  if (dayFirst) return days(fullYear(dayFirst[3]!), monthOf(dayFirst[2]!), Number(dayFirst[1]));
  const monthFirst = MONTH_NAME_DAY.exec(text);
  if (monthFirst) return days(Number(monthFirst[3]), monthOf(monthFirst[1]!), Number(monthFirst[2]));
  return Number.NaN;
}

const monthOf = (name: string): number => MONTHS[name.slice(0, 3).toLowerCase()] ?? 0;

/** The day-first and the month-first reading of "a/b/year" differ; the parts a and b, when the text is such a date. */
export function ambiguousParts(text: string): readonly [number, number] | undefined {
  const match = NUMERIC_DATE.exec(text);
  return match && match[1]!.length <= 2 ? [Number(match[1]), Number(match[3])] : undefined;
}

const TIME =
  /^(\d{1,6}):(\d{1,2})(?::(\d{1,2}))?(?:[.,:](\d{1,24}))?(?: ?([ap])\.? ?m\.?)?(?: ?(Z|UTC|GMT|[+-]\d{2}:?\d{2}|[+-]\d{2})| [A-Z]{3,5})?$/i;

/** A time of day or an elapsed time. */
export interface TimeParts {
  readonly us: number;
  /** Minutes east of Greenwich, when the text says so. */
  readonly zoneMin?: number;
}

/**
 * Reads "h:m", "h:m:s" with a fraction of any length after '.', ',' or ':', AM/PM (12 AM is 0 h, 12 PM is
 * 12 h) and a zone; with `form` 'm:s', "m:s" with a fraction. A zone's letters, as in "CEST", are read over.
 */
export function parseTime(text: string, form: 'h:m:s' | 'm:s' = 'h:m:s'): TimeParts | undefined {
  const match = text.length <= LONGEST_STAMP ? TIME.exec(text) : null;
  if (!match) return undefined;
  const [, first, second, third, fraction, half, zone] = match;
  let parts = [Number(first), Number(second), Number(third ?? 0)];
  if (third === undefined) {
    if (form === 'm:s') parts = [0, Number(first), Number(second)];
    else if (fraction !== undefined) return undefined;
  }
  const [h, m, s] = parts as [number, number, number];
  if ((form === 'h:m:s' && m > 59) || s > 60) return undefined;
  let hour = h;
  if (half !== undefined) {
    if (h < 1 || h > 12) return undefined;
    hour = (h % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  }
  const us = ((hour * 60 + m) * 60 + s) * US_PER_S + fractionUs(fraction);
  return zone === undefined ? { us } : { us, zoneMin: zoneMinutes(zone) };
}

/** Digits after the decimal mark as microseconds, rounded to the nearest. */
export function fractionUs(digits: string | undefined): number {
  if (digits === undefined) return 0;
  const six = Number(digits.slice(0, 6).padEnd(6, '0'));
  return six + (digits.length > 6 && digits[6]! >= '5' ? 1 : 0);
}

function zoneMinutes(zone: string): number {
  const match = /^([+-])(\d{2}):?(\d{2})?$/.exec(zone);
  if (!match) return 0;
  return (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3] ?? 0));
}

/** A date with a time of day; `us` from 1970-01-01, in the zone when there is one, else on the wall clock. */
export function parseStamp(text: string, order: DateOrder): TimeParts | undefined {
  const split = splitStamp(text);
  if (!split) return undefined;
  const day = parseDate(split.date, order);
  const time = split.time === '' ? { us: 0 } : parseTime(split.time);
  if (Number.isNaN(day) || !time || (split.time !== '' && time.us > US_PER_DAY)) return undefined;
  const us = day * US_PER_DAY + time.us;
  return time.zoneMin === undefined
    ? { us }
    : { us: us - time.zoneMin * 60 * US_PER_S, zoneMin: time.zoneMin };
}

/** Parts a stamp at the first 'T' or blank before its time; a lone date has an empty time. */
export function splitStamp(text: string): { readonly date: string; readonly time: string } | undefined {
  if (text.length > LONGEST_STAMP) return undefined;
  const colon = text.indexOf(':');
  if (colon < 0) return { date: text, time: '' };
  let at = colon;
  while (at > 0 && text[at - 1]! >= '0' && text[at - 1]! <= '9') at--;
  if (at === 0) {
    // Time first: "18:39:44 25.01.2025".
    const blank = text.lastIndexOf(' ');
    return blank < 0 ? undefined : { date: text.slice(blank + 1), time: text.slice(0, blank).trim() };
  }
  const separator = text[at - 1]!;
  if (separator !== 'T' && separator !== 't' && separator !== ' ' && separator !== ',' && separator !== '_')
    return undefined;
  return {
    date: text
      .slice(0, at - 1)
      .trim()
      .replace(/,$/, ''),
    time: text.slice(at),
  };
}

/** An ISO stamp of microseconds on some wall clock; the zone is written only when the file gave one. */
export function isoStamp(us: number, zoneMin?: number): string {
  const iso = new Date((us + (zoneMin ?? 0) * 60 * US_PER_S) / 1000).toISOString().replace(/\.000Z$|Z$/, '');
  if (zoneMin === undefined) return iso;
  if (zoneMin === 0) return `${iso}Z`;
  const minutes = Math.abs(zoneMin);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${iso}${zoneMin < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
