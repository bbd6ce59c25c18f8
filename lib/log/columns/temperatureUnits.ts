import { celsiusToFahrenheit, TemperbookError, ZERO_C_IN_K } from '../../quantity';
import type { Reading } from '../reading';
import type { TempUnit } from '../readOptions';
import { type ColumnSample, findColumn, median } from './columnSample';

/** A unit that is a straight line from °C: °C = (value − zero) / perDegree. mV is not one. */
export const SCALES: Readonly<
  Record<Exclude<TempUnit, 'mV'>, { readonly zero: number; readonly perDegree: number }>
> = {
  '°C': { zero: 0, perDegree: 1 },
  '°F': { zero: celsiusToFahrenheit(0), perDegree: 1.8 },
  K: { zero: ZERO_C_IN_K, perDegree: 1 },
  '0.1 °C': { zero: 0, perDegree: 10 },
  '0.001 °C': { zero: 0, perDegree: 1000 },
};

/** Value in °C of a reading in one of these units. */
export function fromUnit(value: number, unit: Exclude<TempUnit, 'mV'>): number {
  const { zero, perDegree } = SCALES[unit];
  return (value - zero) / perDegree;
}

/** Room temperature of any shop, °C: a log that starts in it has its unit right. Common practice, no source. */
const ROOM_C = { low: 5, high: 40 };
const START_ROWS = 20;
const START_READINGS = 3;
/** No part is colder than this on the kelvin scale; a lower "K" names a thermocouple type. */
const LEAST_KELVIN = 200;
const isRoom = (tempC: number) => tempC >= ROOM_C.low && tempC <= ROOM_C.high;

/** Middle of a column's first readings, sentinels and the like left out; NaN when there are none. */
function startOf({ numbers }: ColumnSample): number {
  const readings = numbers.subarray(0, START_ROWS).filter((value) => Math.abs(value) < 1e5 && value !== 0);
  return median(readings.subarray(0, START_READINGS));
}

/**
 * Settles the unit of every temperature column: your option, its name or units row, a unit glued to its
 * numbers, a line of the header, or what the other columns have. With none of these the start of the log must
 * look like room temperature in exactly one unit.
 * @throws TemperbookError when it does not: a reading in °F taken for °C would spoil every verdict.
 */
export function temperatureUnits(
  channels: readonly { readonly sample: ColumnSample; readonly name: string }[],
  preamble: readonly string[],
  reading: Reading,
): TempUnit[] {
  const { file, options } = reading;
  const asked = new Map<ColumnSample, TempUnit>();
  if (typeof options.unit === 'object') {
    const all = channels.map(({ sample }) => sample);
    for (const [key, unit] of Object.entries(options.unit))
      asked.set(findColumn(all, key, 'unit', file), unit);
  }
  const told = channels.map(({ sample }) => {
    if (typeof options.unit === 'string') return options.unit;
    return asked.get(sample) ?? unitInFile(sample, reading);
  });
  const known = new Set(told.filter((unit): unit is TempUnit => unit !== undefined));
  const untold = channels.flatMap(({ sample }, i) => (told[i] === undefined ? [sample] : []));
  const shared = untold.length > 0 ? sharedUnit(untold, [...known], preamble, reading) : undefined;
  const units = told.map((unit) => unit ?? shared!);
  channels.forEach(({ sample }, i) => {
    if (told[i] !== undefined) checkStart(sample, told[i]!, reading);
  });
  return units;
}

/** The unit of all columns that have none: one logger writes one unit. */
function sharedUnit(
  samples: readonly ColumnSample[],
  known: readonly TempUnit[],
  preamble: readonly string[],
  reading: Reading,
): TempUnit {
  const { file, notes } = reading;
  const names = samples.map(({ column }) => `"${column.name}"`).join(', ');
  const have = samples.length === 1 ? 'has' : 'have';
  const start = median(samples.map(startOf));
  const header = preambleUnit(preamble);
  if (header && !(header.unit === 'K' && start < LEAST_KELVIN)) {
    notes.push(
      `${names} ${have} no unit; the header line "${header.line.slice(0, 60)}" gives ${header.unit}.`,
    );
    return header.unit;
  }
  if (known.length === 1) {
    notes.push(`${names} ${have} no unit, so ${known[0]} is taken, as in the other temperature columns.`);
    return known[0]!;
  }
  const areWhole = samples.every(({ numbers }) =>
    numbers.every((value) => Number.isNaN(value) || Number.isInteger(value)),
  );
  const fits = (['°C', '°F', 'K', '0.001 °C'] as const).filter(
    (unit) => isRoom(fromUnit(start, unit)) && (unit !== '0.001 °C' || areWhole),
  );
  if (fits.length === 1) {
    notes.push(
      `${names} ${have} no unit; ${fits[0]} is assumed, as the log starts at ${round(start)}, which is room temperature in ${fits[0]} and in no other unit. If that is wrong, say so in option unit.`,
    );
    return fits[0]!;
  }
  throw new TemperbookError('Nothing says in which unit the temperatures are', {
    file,
    column: samples[0]!.column.name,
    found: Number.isNaN(start) ? 'no readings at the start' : `readings that start at ${round(start)}`,
    expected: 'a unit in the column name, in a units row, or a start at room temperature',
    remedy: 'Say the unit, as option unit: "°C", "°F", "K" or "mV"',
  });
}

function unitInFile(sample: ColumnSample, reading: Reading): TempUnit | undefined {
  const { notes } = reading;
  const { column, glued } = sample;
  const [stuck] = glued;
  const symbol = column.unit?.symbol ?? stuck;
  if (symbol === 'K' && startOf(sample) < LEAST_KELVIN) {
    notes.push(
      `The K of column "${column.name}" cannot be kelvin, as it starts below 200; it is taken for the thermocouple type.`,
    );
    return undefined;
  }
  return isTempUnit(symbol) ? symbol : undefined;
}

const isTempUnit = (symbol: string | undefined): symbol is TempUnit =>
  symbol !== undefined && (symbol === 'mV' || Object.hasOwn(SCALES, symbol));

function preambleUnit(
  preamble: readonly string[],
): { readonly unit: TempUnit; readonly line: string } | undefined {
  for (const line of preamble) {
    const match =
      /\b(?:units?|einheit|scale|temperatures?(?: in)?)\b["\s:=,;()[\]]*(?:in |are )?(?:deg(?:rees)?\.?\s*|°\s*)?(celsius|fahrenheit|kelvin|[CFK])\b/i.exec(
        line,
      );
    if (match)
      return { unit: ({ c: '°C', f: '°F', k: 'K' } as const)[match[1]![0]!.toLowerCase() as 'c'], line };
  }
  return undefined;
}

/** A log that starts far from room temperature may be right, or in another unit than it says. */
function checkStart(sample: ColumnSample, unit: TempUnit, reading: Reading): void {
  const { notes } = reading;
  const start = startOf(sample);
  if (unit === 'mV' || Number.isNaN(start)) return;
  const startC = fromUnit(start, unit);
  if (isRoom(startC)) return;
  const other = (['°C', '°F', 'K'] as const).find((u) => u !== unit && isRoom(fromUnit(start, u)));
  notes.push(
    `"${sample.column.name}" starts at ${round(start)} ${unit}, which is not room temperature: ${other ? `either the part was not at room temperature or the column is in ${other}; please check` : 'the part was already hot, or cold, when the log began'}.`,
  );
}

const round = (value: number) => Number(value.toPrecision(4));
