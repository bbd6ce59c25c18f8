import { TemperbookError } from '../quantity';
import type { ThermocoupleType } from '../thermocouple';
import type { FaultKind } from './faultKind';

/** What a temperature column can hold; the last two are whole numbers of tenths or thousandths of a degree. */
export const TEMP_UNITS = ['°C', '°F', 'K', 'mV', '0.1 °C', '0.001 °C'] as const;

/** One of `TEMP_UNITS`. */
export type TempUnit = (typeof TEMP_UNITS)[number];

/** How a clock column is written. 'stamp' is any date with a time of day. */
export const CLOCK_FORMATS = [
  's',
  'ms',
  'min',
  'h',
  'h:m:s',
  'm:s',
  'epoch s',
  'epoch ms',
  'spreadsheet days',
  'hhmmss',
  'yyyymmddhhmmss',
  'stamp',
] as const;

/** One of `CLOCK_FORMATS`. */
export type ClockFormat = (typeof CLOCK_FORMATS)[number];

/** Orders of the parts of a date. */
export const DATE_ORDERS = ['day first', 'month first', 'year first'] as const;

/** One of `DATE_ORDERS`. */
export type DateOrder = (typeof DATE_ORDERS)[number];

/**
 * What you know better than the file says; everything left out is decided from the file and told in `notes`.
 * Columns are called by the name that stands in the file, with or without its unit ("TC1 (°F)" or "TC1"), or
 * by their place ("#3" is the third).
 */
export interface ReadOptions {
  /** Name of the log in messages, when bytes are given; else the file's own name. */
  readonly name?: string;
  readonly encoding?: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
  /** ' ' stands for runs of spaces or tabs. */
  readonly delimiter?: ',' | ';' | '\t' | ' ';
  readonly decimal?: '.' | ',';
  /** Column → the channel's name (which makes it a temperature), or false to leave the column aside. */
  readonly columns?: Readonly<Record<string, string | false>>;
  /** Unit of every temperature column, or of each by name. */
  readonly unit?: TempUnit | Readonly<Record<string, TempUnit>>;
  readonly clock?: {
    /** The clock's column, or its date column and its time column. */
    readonly column?: string | readonly [date: string, time: string];
    readonly format?: ClockFormat;
    readonly dateOrder?: DateOrder;
  };
  /** Time from row to row, s: the file's clock, if any, is not used. */
  readonly intervalS?: number;
  /** Readings are rises over this temperature (°C), not temperatures. */
  readonly riseOverC?: number;
  /** For columns in mV: the wire, and where its cold end is (a temperature, or the column that has it). */
  readonly thermocouple?: {
    readonly type: ThermocoupleType;
    readonly referenceC?: number;
    readonly referenceColumn?: string;
  };
  /** Numbers that mean "no reading", in the file's own unit; replaces `DEFAULT_SENTINELS`. */
  readonly sentinels?: readonly number[];
  readonly limits?: ReadLimits;
  /** Called now and then, at most twice a second, once reading has taken two seconds, with the share of the file read. */
  readonly onProgress?: (share: number) => void;
  /** Kinds of fault to let through after a look at the trace: the readings stay in the history. */
  readonly accept?: readonly FaultKind[];
}

/** Limits a reading must keep to be trusted. */
export interface ReadLimits {
  /** Coldest reading believed, °C; default −50. */
  readonly lowC?: number;
  /** A reading at or above this is not believed, °C; default 1370, the top of type K. */
  readonly highC?: number;
  /**
   * Fastest change believed, °C/s; default 400. Moving-source estimates give about 275 °C/s at 10 mm from a
   * fast weld in 6 mm plate (derived; Rosenthal's thin-plate formula), so anything faster is not heat.
   */
  readonly maxRateCPerS?: number;
  /** Longest stretch without readings that is bridged by a straight line, s; default 4 usual intervals. */
  readonly gapS?: number;
}

const KNOWN: Readonly<Record<keyof ReadOptions, string>> = {
  name: 'text',
  encoding: 'utf-8, utf-16le, utf-16be or windows-1252',
  delimiter: 'a comma, a semicolon, a tab or a space',
  decimal: '"." or ","',
  columns: 'an object { "column in the file": "channel name" or false }',
  unit: 'a unit, or an object { "column in the file": unit }; units are °C, °F, K, mV, 0.1 °C, 0.001 °C',
  clock: 'an object with column, format or dateOrder',
  intervalS: 'seconds from row to row, above 0',
  riseOverC: 'a temperature in °C',
  thermocouple: 'an object { type, referenceC or referenceColumn }',
  sentinels: 'a list of numbers',
  limits: 'an object with lowC, highC, maxRateCPerS or gapS, numbers',
  onProgress: 'a function',
  accept: 'a list of fault kinds',
};

const isOneOf = (words: readonly unknown[], x: unknown): boolean => words.includes(x);
const isObject = (x: unknown): x is Record<string, unknown> =>
  typeof x === 'object' && x !== null && !Array.isArray(x);
const isText = (x: unknown): x is string => typeof x === 'string';
const isNumber = (x: unknown): x is number => typeof x === 'number' && Number.isFinite(x);
const onlyKeys = (x: unknown, keys: readonly string[]) =>
  isObject(x) && Object.keys(x).every((key) => keys.includes(key));

const ACCEPTS: Readonly<Record<keyof ReadOptions, (x: unknown) => boolean>> = {
  name: isText,
  encoding: (x) => ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'].includes(x as string),
  delimiter: (x) => [',', ';', '\t', ' '].includes(x as string),
  decimal: (x) => x === '.' || x === ',',
  columns: (x) =>
    isObject(x) && Object.values(x).every((use) => use === false || (isText(use) && use.trim() !== '')),
  unit: (x) =>
    isOneOf(TEMP_UNITS, x) || (isObject(x) && Object.values(x).every((u) => isOneOf(TEMP_UNITS, u))),
  clock: (x) =>
    onlyKeys(x, ['column', 'format', 'dateOrder']) &&
    isObject(x) &&
    (x.column === undefined ||
      isText(x.column) ||
      (Array.isArray(x.column) && x.column.length === 2 && x.column.every(isText))) &&
    (x.format === undefined || isOneOf(CLOCK_FORMATS, x.format)) &&
    (x.dateOrder === undefined || isOneOf(DATE_ORDERS, x.dateOrder)),
  intervalS: (x) => isNumber(x) && x > 0,
  riseOverC: isNumber,
  thermocouple: (x) =>
    onlyKeys(x, ['type', 'referenceC', 'referenceColumn']) &&
    isObject(x) &&
    isText(x.type) &&
    (x.referenceC === undefined || isNumber(x.referenceC)) &&
    (x.referenceColumn === undefined || isText(x.referenceColumn)),
  sentinels: (x) => Array.isArray(x) && x.every(isNumber),
  limits: (x) =>
    onlyKeys(x, ['lowC', 'highC', 'maxRateCPerS', 'gapS']) &&
    Object.values(x as object).every((v) => v === undefined || (typeof v === 'number' && !Number.isNaN(v))),
  onProgress: (x) => typeof x === 'function',
  accept: (x) => Array.isArray(x) && x.every(isText),
};

/** Checks options at the door, so that a slip of the pen is not taken for "decide from the file". */
export function checkOptions(options: ReadOptions): void {
  for (const [key, value] of Object.entries(options)) {
    if (!Object.hasOwn(KNOWN, key))
      throw new TemperbookError(`There is no reading option "${key}"`, {
        expected: `one of ${Object.keys(KNOWN).join(', ')}`,
      });
    const option = key as keyof ReadOptions;
    if (value !== undefined && !ACCEPTS[option](value))
      throw new TemperbookError(`The reading option "${key}" is not usable`, {
        found: JSON.stringify(value),
        expected: KNOWN[option],
      });
  }
}
