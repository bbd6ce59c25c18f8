import { TemperbookError, ZERO_C_IN_K } from '../quantity';

/**
 * Temperature of one point over time: the type every room speaks. Between samples the temperature is the
 * straight line between them, so every integral over a history has one exact value.
 */
export interface ThermalHistory {
  /** Strictly increasing, s. */
  readonly timeS: Float64Array;
  /** Same length as `timeS`, °C, above absolute zero. */
  readonly tempC: Float64Array;
  /**
   * Sample indices i (ascending) whose interval i → i+1 was not recorded. Integrals leave such an interval
   * out; `coverage` counts it. Absent means no gap.
   */
  readonly gapAfter?: Uint32Array;
}

/**
 * Builds a history from any numbers, checking what the type promises.
 * @throws TemperbookError on fewer than one sample, unequal lengths, a non-finite value, a time that does
 * not increase, or a temperature at or below absolute zero; the message names the sample.
 */
export function thermalHistory(
  timeS: ArrayLike<number>,
  tempC: ArrayLike<number>,
  gapAfter?: ArrayLike<number>,
): ThermalHistory {
  const history = {
    timeS: Float64Array.from(timeS),
    tempC: Float64Array.from(tempC),
    ...(gapAfter?.length ? { gapAfter: Uint32Array.from(gapAfter) } : {}),
  };
  checkHistory(history);
  return history;
}

/** Throws unless the history keeps the promises of its type; every model calls this at its door. */
export function checkHistory(given: ThermalHistory): void {
  const { timeS, tempC, gapAfter } = (given ?? {}) as ThermalHistory;
  if (!timeS || !tempC || timeS.length !== tempC.length || timeS.length === 0)
    throw new TemperbookError('A thermal history needs as many temperatures as times, and at least one', {
      found: `${timeS?.length ?? 0} times and ${tempC?.length ?? 0} temperatures`,
    });
  const bad = firstBadSample(timeS, tempC);
  if (bad >= 0) throw badSample(bad, timeS[bad]!, tempC[bad]!, timeS[bad - 1]!);
  for (let k = 0; k < (gapAfter?.length ?? 0); k++) {
    const i = gapAfter![k]!;
    if (i > timeS.length - 2 || (k > 0 && i <= gapAfter![k - 1]!))
      throw new TemperbookError('A gap mark of a thermal history points outside it or is out of order', {
        found: `index ${i} among ${timeS.length} samples`,
      });
  }
}

/** A constant of this file: an imported one costs a call per use in CommonJS. */
const ABSOLUTE_ZERO_C = -ZERO_C_IN_K;

/** The loop by itself, because every model runs it over every sample. */
function firstBadSample(timeS: Float64Array, tempC: Float64Array): number {
  let previous = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < timeS.length; i++) {
    const t = timeS[i]!;
    const temp = tempC[i]!;
    if (
      !(
        t > previous &&
        t < Number.POSITIVE_INFINITY &&
        temp > ABSOLUTE_ZERO_C &&
        temp < Number.POSITIVE_INFINITY
      )
    )
      return i;
    previous = t;
  }
  return -1;
}

function badSample(i: number, t: number, temp: number, previous: number): TemperbookError {
  if (Number.isFinite(t) && temp > -ZERO_C_IN_K && temp < Number.POSITIVE_INFINITY)
    return new TemperbookError('The times of a thermal history must increase', {
      found: `${previous} s then ${t} s at sample ${i}`,
      remedy: 'Sort the rows by time and drop repeated stamps',
    });
  return new TemperbookError('A thermal history holds a value no metal can have', {
    found: `time ${t} s with temperature ${temp} °C at sample ${i}`,
    expected: 'finite numbers, temperature above −273.15 °C',
    remedy: 'Leave missing values out and mark the gap instead',
  });
}

/** Holds one temperature for a time: the isothermal soak of the handbooks. `durationS` > 0. */
export function isothermal(tempC: number, durationS: number): ThermalHistory {
  return thermalHistory([0, durationS], [tempC, tempC]);
}

/** Temperature at a time by straight line between samples, °C; the end values outside the history. */
export function tempAt(history: ThermalHistory, atS: number): number {
  const { timeS, tempC } = history;
  const last = timeS.length - 1;
  if (atS <= timeS[0]!) return tempC[0]!;
  if (atS >= timeS[last]!) return tempC[last]!;
  return tempOnLine(history, lastAtOrBefore(timeS, atS), atS);
}

/** Temperature on the straight line from sample i to the next, °C. */
export function tempOnLine({ timeS, tempC }: ThermalHistory, i: number, atS: number): number {
  const share = (atS - timeS[i]!) / (timeS[i + 1]! - timeS[i]!);
  return tempC[i]! + share * (tempC[i + 1]! - tempC[i]!);
}

/** Index of the last time not after `atS`, −1 when all are after it; times ascending. */
export function lastAtOrBefore(timeS: Float64Array, atS: number): number {
  let low = -1;
  let high = timeS.length;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if (timeS[mid]! <= atS) low = mid;
    else high = mid;
  }
  return low;
}

/** Recorded and unrecorded time of a history, s; they add up to its whole span. */
export interface Coverage {
  readonly coveredS: number;
  readonly uncoveredS: number;
}

/** How much of a history's span was recorded and how much fell into gaps. */
export function coverage({ timeS, gapAfter }: ThermalHistory): Coverage {
  const span = timeS[timeS.length - 1]! - timeS[0]!;
  let uncoveredS = 0;
  for (const i of gapAfter ?? []) uncoveredS += timeS[i + 1]! - timeS[i]!;
  return { coveredS: span - uncoveredS, uncoveredS };
}
