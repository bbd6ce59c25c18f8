import type { Reading } from '../reading';
import type { ReadOptions, TempUnit } from '../readOptions';
import type { OpenReading } from '../thermalLog';
import { type ColumnSample, median } from './columnSample';
import { fromUnit } from './unitScales';

/** Room temperature of any shop, °C: a log that starts in it has its unit right. Common practice, no source. */
const ROOM_C = { low: 5, high: 40 };
/** A cold shop in winter; nothing that is welded is colder. Common practice, no source. */
const COLDEST_SHOP_C = 0;
/** Aluminium alloys are molten above 660 °C; a thermocouple in an arc's edge may read a little more. */
const HOTTEST_C = 700;
/** Whole numbers this large may be tenths of degrees: below, the part was never warm. */
const LEAST_TENTHS = 600;
/** A first reading this much above the next ones belongs to a part that cools: it was hot, not in another unit. */
const COOLS_BY = 1;
const START_ROWS = 20;
const START_READINGS = 3;
/** Readings this near zero all through the start of a log are rises over the room rather than a frost, K. */
export const NEAR_ZERO = 2;
const RISES_TO = 20;
/** The room assumed when rises are read as such, °C. */
const ASSUMED_ROOM_C = 25;

/** Could a shop be that warm or cold? */
export const isRoom = (tempC: number): boolean => tempC >= ROOM_C.low && tempC <= ROOM_C.high;

/** What a column's sampled numbers say of its unit, in the column's own unit. */
export interface UnitSample {
  readonly start: number;
  readonly low: number;
  readonly high: number;
  readonly isWhole: boolean;
  /** Does it start by cooling? */
  readonly cools: boolean;
}

/** Sums up columns of one unit; sentinels and zeros are left out. */
export function unitSample(samples: readonly ColumnSample[]): UnitSample {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let isWhole = true;
  let cooling = 0;
  for (const { numbers } of samples) {
    for (const value of numbers) {
      if (Number.isNaN(value)) continue;
      if (!Number.isInteger(value)) isWhole = false;
      if (value === 0 || Math.abs(value) >= 30_000 || Math.abs(value) === 9999) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    const first = numbers.subarray(0, START_ROWS).filter((value) => !Number.isNaN(value));
    if (first.length > 3 && first[0]! - first[first.length - 1]! > COOLS_BY) cooling++;
  }
  return { start: median(samples.map(startOf)), low, high, isWhole, cools: cooling * 2 > samples.length };
}

/** Middle of a column's first readings, sentinels and the like left out; NaN when there are none. */
export function startOf({ numbers }: ColumnSample): number {
  const readings = numbers.subarray(0, START_ROWS).filter((value) => Math.abs(value) < 1e5 && value !== 0);
  return median(readings.subarray(0, START_READINGS));
}

type Scale = Exclude<TempUnit, 'mV'>;
const SCALE_UNITS: readonly Scale[] = ['°C', '°F', 'K', '0.1 °C', '0.001 °C'];

/** Tenths and thousandths are whole numbers, and tenths that stay small were never warm. */
function couldBeWritten(unit: Scale, { high, isWhole }: UnitSample): boolean {
  return unit[0] !== '0' || (isWhole && (unit !== '0.1 °C' || high >= LEAST_TENTHS));
}

/** Units in which a part in a shop could have these temperatures. */
export function possibleUnits(sample: UnitSample): Scale[] {
  return SCALE_UNITS.filter(
    (unit) =>
      couldBeWritten(unit, sample) &&
      fromUnit(sample.low, unit) >= COLDEST_SHOP_C &&
      fromUnit(sample.high, unit) <= HOTTEST_C,
  );
}

/** Units in which the start is room temperature, however hot it gets. */
export function roomUnits(sample: UnitSample): Scale[] {
  return SCALE_UNITS.filter((unit) => couldBeWritten(unit, sample) && isRoom(fromUnit(sample.start, unit)));
}

/**
 * Units a column could be in although it says another one: its start is no room temperature in the unit it
 * gives, and is one in the other, and the part was not cooling then.
 */
export function contradictingUnits(sample: UnitSample, said: TempUnit): TempUnit[] {
  if (said === 'mV' || Number.isNaN(sample.start) || isRoom(fromUnit(sample.start, said)) || sample.cools)
    return [];
  return possibleUnits(sample).filter((unit) => unit !== said && isRoom(fromUnit(sample.start, unit)));
}

/** The open reading of columns that could be in another unit. */
export function openUnit(
  samples: readonly ColumnSample[],
  taken: TempUnit,
  others: readonly TempUnit[],
  because: string,
  { options }: Reading,
): OpenReading {
  const given = typeof options.unit === 'object' ? options.unit : {};
  const asUnit = (unit: TempUnit): ReadOptions => ({
    ...options,
    unit: { ...given, ...Object.fromEntries(samples.map(({ column }) => [column.name, unit])) },
  });
  return {
    of: 'unit',
    option: 'unit',
    because,
    taken: { words: taken, options: asUnit(taken) },
    other: others.map((unit) => ({ words: unit, options: asUnit(unit) })),
  };
}

/** A column that starts at zero and rises from there may hold rises over the room. */
export function openRise(samples: readonly ColumnSample[], reading: Reading): OpenReading | undefined {
  const { options } = reading;
  const rising = samples.filter(({ numbers }) => {
    const filled = numbers.filter((value) => !Number.isNaN(value));
    const from = filled.findIndex((value) => Math.abs(value) >= NEAR_ZERO);
    // Zeros before the first measurement end with a jump to the room, where the log rests.
    const isArrival = filled[from]! >= 5 * NEAR_ZERO && filled[from + 1]! < filled[from]! + NEAR_ZERO;
    return from >= 5 && filled[from]! > 0 && !isArrival && Math.max(...filled) >= RISES_TO;
  });
  if (rising.length === 0 || options.riseOverC !== undefined) return undefined;
  return {
    of: 'column',
    option: 'riseOverC',
    because: `${rising.map(({ column }) => `"${column.name}"`).join(', ')} ${rising.length === 1 ? 'starts' : 'start'} at zero, as rises over the room would.`,
    taken: {
      words: 'temperatures',
      options: {
        ...options,
        unit: {
          ...(typeof options.unit === 'object' ? options.unit : {}),
          ...Object.fromEntries(rising.map(({ column }) => [column.name, '°C' as const])),
        },
      },
    },
    other: [
      {
        words: `rises over a room of ${ASSUMED_ROOM_C} °C`,
        options: { ...options, riseOverC: ASSUMED_ROOM_C },
      },
    ],
  };
}
