import { TemperbookError } from '../../quantity';
import type { Reading } from '../reading';
import type { TempUnit } from '../readOptions';
import { type ColumnSample, findColumn, median } from './columnSample';
import {
  contradictingUnits,
  isRoom,
  NEAR_ZERO,
  openRise,
  openUnit,
  possibleUnits,
  roomUnits,
  startOf,
  unitSample,
} from './openUnits';
import type { UnitInColumn } from './unitColumn';
import { fromUnit, SCALES } from './unitScales';

/** No part is colder than this on the kelvin scale; a lower "K" names a thermocouple type. */
const LEAST_KELVIN = 200;
/** Below this a log in °C starts in a cold shop. */
const COLD_START_C = 5;

/**
 * Settles the unit of every temperature column: your option, its name or units row, a unit glued to its
 * numbers, a line of the header, or what the other columns have. With none of these the start of the log must
 * look like room temperature in exactly one unit.
 * @throws TemperbookError when it does not: a reading in °F taken for °C would spoil every verdict.
 */
export function temperatureUnits(
  channels: readonly { readonly sample: ColumnSample; readonly name: string }[],
  preamble: readonly string[],
  inColumn: ReadonlyMap<ColumnSample, UnitInColumn>,
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
    return asked.get(sample) ?? unitInFile(sample, reading) ?? inColumn.get(sample)?.unit;
  });
  const known = new Set(told.filter((unit): unit is TempUnit => unit !== undefined));
  const untold = channels.flatMap(({ sample }, i) => (told[i] === undefined ? [sample] : []));
  const shared = untold.length > 0 ? sharedUnit(untold, [...known], preamble, reading) : undefined;
  const units = told.map((unit) => unit ?? shared!);
  channels.forEach(({ sample }, i) => {
    if (told[i] !== undefined) checkStart(sample, told[i]!, reading);
  });
  const inFile = channels.filter(
    ({ sample }, i) => told[i] !== undefined && !asked.has(sample) && typeof options.unit !== 'string',
  );
  const said = inFile.map(({ sample }) => ({
    sample,
    unit: units[channels.findIndex((c) => c.sample === sample)]!,
  }));
  const header = preambleUnit(preamble);
  for (const unit of new Set(said.map((one) => one.unit))) {
    const samples = said.filter((one) => one.unit === unit).map(({ sample }) => sample);
    const beside = samples.map((sample) => inColumn.get(sample)).find((own) => own && own.unit !== unit);
    contradictions(samples, unit, header ?? (beside && { unit: beside.unit, line: beside.column }), reading);
  }
  const inCelsius = channels.filter(
    ({ sample }, i) => units[i] === '°C' && !asked.has(sample) && typeof options.unit !== 'string',
  );
  const rise = openRise(
    inCelsius.map(({ sample }) => sample),
    reading,
  );
  if (rise) reading.open.push(rise);
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
  const seen = unitSample(samples);
  const possible = possibleUnits(seen);
  const fits = roomUnits(seen);
  // A cold shop: no other unit makes it a temperature of metal that is welded.
  const isCold = fits.length === 0 && possible.length === 1 && possible[0] === '°C' && start < COLD_START_C;
  const taken = isCold ? '°C' : fits[0];
  if (taken !== undefined && (isCold || fits.length === 1)) {
    notes.push(
      `${names} ${have} no unit; ${taken} is assumed, as the log starts at ${round(start)}, which is ${isCold ? 'a shop in winter' : 'room temperature'} in ${taken} and in no other unit. If that is wrong, say so in option unit.`,
    );
    const others = possible.filter((unit) => unit !== taken);
    if (others.length > 0)
      reading.open.push(
        openUnit(
          samples,
          taken,
          others,
          `Nothing says in which unit ${names} ${samples.length === 1 ? 'is' : 'are'}.`,
          reading,
        ),
      );
    return taken;
  }
  throw new TemperbookError('Nothing says in which unit the temperatures are', {
    file,
    column: samples[0]!.column.name,
    found: Number.isNaN(start)
      ? 'zeros, or no readings, at the start'
      : `readings that start at ${round(start)}`,
    expected: 'a unit in the column name, in a units row, or a start at room temperature',
    remedy:
      'Say the unit, as option unit: "°C", "°F", "K" or "mV"; of rises, the temperature they start from as well, as option riseOverC',
  });
}

/** Columns whose own unit a line of the header, a column of units or the start of the log contradicts. */
function contradictions(
  samples: readonly ColumnSample[],
  unit: TempUnit,
  header: { readonly unit: TempUnit; readonly line: string } | undefined,
  reading: Reading,
): void {
  const names = samples.map(({ column }) => `"${column.name}"`).join(', ');
  const [say, start] = samples.length === 1 ? ['says', 'starts'] : ['say', 'start'];
  const seen = unitSample(samples);
  const others = contradictingUnits(seen, unit);
  if (header && unit !== 'mV' && header.unit !== unit && !others.includes(header.unit))
    others.push(header.unit);
  if (others.length === 0) return;
  const because =
    header && others.includes(header.unit)
      ? `${names} ${say} ${unit}, and "${header.line.trim().slice(0, 60)}" says ${header.unit}.`
      : `${names} ${say} ${unit} and ${start} at ${round(seen.start)}, which is no room temperature in ${unit}.`;
  reading.open.push(openUnit(samples, unit, others, because, reading));
}

function unitInFile(sample: ColumnSample, reading: Reading): TempUnit | undefined {
  const { file, notes, options } = reading;
  const { column, glued, numbers } = sample;
  const [stuck] = glued;
  const symbol = column.unit?.symbol ?? stuck;
  if (symbol === 'K' && options.riseOverC === undefined && startsBelow(sample, LEAST_KELVIN)) {
    const first = numbers.find((value) => !Number.isNaN(value)) ?? Number.NaN;
    if (Math.abs(first) < NEAR_ZERO)
      throw new TemperbookError('A column in K starts at zero, as rises over the room would', {
        ...{ file, column: column.name },
        found: `${first} at its start`,
        expected: 'kelvin, some 290 in a shop',
        remedy:
          'Give the temperature the rises start from, as option riseOverC (°C), or say the unit, as option unit',
      });
    notes.push(
      `The K of column "${column.name}" cannot be kelvin, as it starts below ${LEAST_KELVIN}; it is taken for the thermocouple type.`,
    );
    return undefined;
  }
  return isTempUnit(symbol) ? symbol : undefined;
}

/** A log that starts with zeros starts where they end. */
function startsBelow(sample: ColumnSample, least: number): boolean {
  const start = startOf(sample);
  return (Number.isNaN(start) ? (sample.numbers.find((value) => value !== 0) ?? start) : start) < least;
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
