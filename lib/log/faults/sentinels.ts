import { TemperbookError, ZERO_C_IN_K } from '../../quantity';
import { emfToCelsius, type ThermocoupleType } from '../../thermocouple';
import type { ChannelData, Limits } from '../channelData';
import { codeOf } from '../faultCodes';
import { TO_CELSIUS } from '../temperatureUnits';

/**
 * Numbers loggers write for an input that is open, too high or not measured: instrument overload, ends of
 * binary counters, rows of nines, the top of type K. Seen in files and makers' manuals, or common practice.
 */
export const DEFAULT_SENTINELS: readonly number[] = [
  ...[9.9e37, -9.9e37, 9.91e37],
  ...[32767, -32768, 3276.7, -3276.8, 65535, 6553.5, 2147483647],
  ...[999, 999.9, -999, -999.9, 9999, 9999.9, -9999, -9999.9, 99999, -99999, 8888, 6999],
  ...[1370, 1372, 2498, 2501.6],
];

const OPEN = codeOf('open circuit');
const OVER = codeOf('over range');
const ZERO = codeOf('absolute zero');
const NOT_A_NUMBER = codeOf('not a number');
const MISSING = codeOf('missing field');
const OVERLOAD = 9e36;
const NAN_SENTINEL = 9.91e37;
/** A sentinel that could be a temperature is one only when the reading jumps by so much to it or from it, K. */
const SENTINEL_JUMP_C = 100;
/** 0.15 K above zero, for files that count from −273. */
const NEAR_ZERO_C = 0.2;

/** For columns in mV. */
export interface EmfConversion {
  readonly type: ThermocoupleType;
  /** Cold end of each row, °C, or of all. */
  readonly referenceC: Float64Array | number;
}

/** Turns a channel's numbers into °C in place and marks sentinels and temperatures no part can have. */
export function toCelsius(
  { tempC, marks, unit }: ChannelData,
  { lowC, highC }: Limits,
  sentinels: readonly number[] | undefined,
  emf: EmfConversion | undefined,
): void {
  const listed = new Set(sentinels ?? DEFAULT_SENTINELS);
  const perhaps: number[] = [];
  const linear = unit === 'mV' ? undefined : TO_CELSIUS[unit];
  for (let i = 0; i < tempC.length; i++) {
    if (marks[i] !== 0) continue;
    const raw = tempC[i]!;
    if (linear && raw < OVERLOAD && raw > -OVERLOAD) {
      const value = linear(raw);
      tempC[i] = value;
      const isListed = listed.has(raw);
      if (value >= lowC && value < highC) {
        if (!isListed) continue;
        if (sentinels) marks[i] = OPEN;
        else perhaps.push(i);
      } else if (isListed) marks[i] = OPEN;
      else if (value + ZERO_C_IN_K <= NEAR_ZERO_C && value + ZERO_C_IN_K >= -NEAR_ZERO_C) marks[i] = ZERO;
      else marks[i] = OVER;
    } else if (emf && raw < OVERLOAD && raw > -OVERLOAD && !listed.has(raw)) {
      const cold = typeof emf.referenceC === 'number' ? emf.referenceC : emf.referenceC[i]!;
      const value = Number.isNaN(cold) ? Number.NaN : fromEmf(emf.type, raw, cold);
      tempC[i] = value;
      if (Number.isNaN(cold)) marks[i] = MISSING;
      else if (!(value >= lowC && value < highC)) marks[i] = OVER;
    } else {
      tempC[i] = Number.NaN;
      marks[i] = Math.abs(raw) >= OVERLOAD ? (raw === NAN_SENTINEL ? NOT_A_NUMBER : OVER) : OPEN;
    }
  }
  for (const i of perhaps) {
    const before = neighbour(tempC, marks, i, -1, perhaps.length);
    const after = neighbour(tempC, marks, i, 1, perhaps.length);
    const jumps = [before, after].some((value) => Math.abs(value - tempC[i]!) > SENTINEL_JUMP_C);
    if (jumps) marks[i] = OPEN;
  }
}

/** EMF to °C, NaN where no thermocouple of the type gives it. */
function fromEmf(type: ThermocoupleType, emfMv: number, referenceC: number): number {
  try {
    return emfToCelsius(type, emfMv, referenceC);
  } catch (error) {
    if (error instanceof TemperbookError) return Number.NaN;
    throw error;
  }
}

/** Next reading of another value on one side, looking no further than the repeats of a sentinel reach. */
function neighbour(
  tempC: Float64Array,
  marks: Uint8Array,
  from: number,
  step: 1 | -1,
  reach: number,
): number {
  for (let i = from + step, k = 0; i >= 0 && i < tempC.length && k <= Math.min(reach, 50); i += step, k++)
    if (marks[i] === 0 && tempC[i] !== tempC[from]) return tempC[i]!;
  return Number.NaN;
}

/** Marks rows at the start in which every channel reads exactly zero, before the logger measured at all. */
export function markZeroStart(
  channels: readonly ChannelData[],
  raw: (channel: number, row: number) => number,
): void {
  const length = channels[0]?.tempC.length ?? 0;
  let zeros = 0;
  while (zeros < length && channels.every(({ marks }, k) => marks[zeros] !== 0 || raw(k, zeros) === 0))
    zeros++;
  if (zeros === 0 || zeros === length) return;
  const leaves = channels.some(({ marks }, k) => marks[zeros] === 0 && Math.abs(raw(k, zeros)) > 5);
  if (!leaves) return;
  for (const { marks, remarks } of channels) {
    for (let i = 0; i < zeros; i++) if (marks[i] === 0) marks[i] = MISSING;
    remarks.set('missing field', 'all channels read exactly zero before the first measurement');
  }
}
