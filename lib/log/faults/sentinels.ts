import { TemperbookError, ZERO_C_IN_K } from '../../quantity';
import { emfToCelsius, type ThermocoupleType } from '../../thermocouple';
import { SCALES } from '../columns/unitScales';
import type { ChannelData, Limits } from './channelData';
import { codeOf, TRUSTED } from './faultCodes';
import { scanTrace, type TraceScan } from './traceScan';

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
const ZERO_START_REMARK = 'all channels read exactly zero before the first measurement';
const NAN_SENTINEL = 9.91e37;
/** A sentinel that could be a temperature is one only when the reading jumps by so much to it and from it, K. */
const SENTINEL_JUMP_C = 100;
/** 0.15 K above zero, for files that count from −273. */
const NEAR_ZERO_C = 0.2;

/** For columns in mV. */
export interface EmfConversion {
  readonly type: ThermocoupleType;
  /** Cold end of each row, °C, or of all. */
  readonly referenceC: Float64Array | number;
}

/**
 * Turns a channel's numbers into °C in place and marks sentinels and temperatures no part can have. Returns a
 * scan of what is left.
 */
export function toCelsius(
  channel: ChannelData,
  limits: Limits,
  sentinels: readonly number[] | undefined,
  emf: EmfConversion | undefined,
  riseOverC?: number,
): TraceScan {
  if (channel.unit === 'mV') convertEmf(channel, limits, new Set(sentinels ?? DEFAULT_SENTINELS), emf!);
  else {
    const { zero, perDegree } = SCALES[channel.unit];
    const scale = { zero: riseOverC === undefined ? zero : -riseOverC * perDegree, perDegree };
    const scan = convertScale(channel, scale, limits, sentinels);
    if (scan) return scan;
  }
  return scanTrace(channel);
}

/** Returns the scan of the converted channel when no reading had to be marked. */
function convertScale(
  channel: ChannelData,
  { zero, perDegree }: { readonly zero: number; readonly perDegree: number },
  { lowC, highC }: Limits,
  sentinels: readonly number[] | undefined,
): TraceScan | undefined {
  const { tempC, marks } = channel;
  const convert = (raw: number) => (raw - zero) / perDegree;
  const listed = new Set(sentinels ?? DEFAULT_SENTINELS);
  const isBelieved = (value: number) => value >= lowC && value < highC;
  const lowestListed = Math.min(...[...listed].filter((raw) => isBelieved(convert(raw))));
  const scan = scanTrace(channel);
  if (convert(scan.low) >= lowC && convert(scan.high) < highC && scan.high < lowestListed) {
    if (zero !== 0 || perDegree !== 1)
      for (let i = 0; i < tempC.length; i++) tempC[i] = (tempC[i]! - zero) / perDegree;
    const largestStep = scan.largestStep / perDegree;
    return { ...scan, low: convert(scan.low), high: convert(scan.high), largestStep };
  }
  const perhaps: number[] = [];
  for (let i = 0; i < tempC.length; i++) {
    if (marks[i] !== TRUSTED) continue;
    const raw = tempC[i]!;
    const value = convert(raw);
    tempC[i] = value;
    if (isBelieved(value)) {
      if (!listed.has(raw)) continue;
      if (sentinels) marks[i] = OPEN;
      else perhaps.push(i);
    } else if (listed.has(raw) || Math.abs(raw) >= OVERLOAD) {
      tempC[i] = Number.NaN;
      marks[i] = raw === NAN_SENTINEL ? NOT_A_NUMBER : Math.abs(raw) >= OVERLOAD ? OVER : OPEN;
    } else marks[i] = Math.abs(value + ZERO_C_IN_K) <= NEAR_ZERO_C ? ZERO : OVER;
  }
  for (const i of perhaps) {
    const before = neighbour(tempC, marks, i, -1, perhaps.length);
    const after = neighbour(tempC, marks, i, 1, perhaps.length);
    const around = [before, after].filter((value) => !Number.isNaN(value));
    if (around.length > 0 && around.every((value) => Math.abs(value - tempC[i]!) > SENTINEL_JUMP_C))
      marks[i] = OPEN;
  }
  return undefined;
}

function convertEmf(
  { tempC, marks }: ChannelData,
  { lowC, highC }: Limits,
  listed: ReadonlySet<number>,
  { type, referenceC }: EmfConversion,
): void {
  for (let i = 0; i < tempC.length; i++) {
    if (marks[i] !== TRUSTED) continue;
    const raw = tempC[i]!;
    const isSentinel = listed.has(raw) || Math.abs(raw) >= OVERLOAD;
    const coldC = typeof referenceC === 'number' ? referenceC : referenceC[i]!;
    const value = isSentinel || Number.isNaN(coldC) ? Number.NaN : fromEmf(type, raw, coldC);
    tempC[i] = value;
    if (isSentinel) marks[i] = raw === NAN_SENTINEL ? NOT_A_NUMBER : Math.abs(raw) >= OVERLOAD ? OVER : OPEN;
    else if (Number.isNaN(coldC)) marks[i] = MISSING;
    else if (!(value >= lowC && value < highC)) marks[i] = OVER;
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

/**
 * Marks rows at the start in which every channel reads exactly zero, before the logger measured at all. Looks at
 * the file's own numbers, so it comes before `toCelsius`.
 */
export function markZeroStart(channels: readonly ChannelData[]): void {
  const length = channels[0]?.tempC.length ?? 0;
  const isZero = (row: number) =>
    channels.every(({ tempC, marks }) => marks[row] !== TRUSTED || tempC[row] === 0);
  let zeros = 0;
  while (zeros < length && isZero(zeros)) zeros++;
  if (zeros === 0 || zeros === length) return;
  if (!channels.some(({ tempC, marks }) => marks[zeros] === TRUSTED && Math.abs(tempC[zeros]!) > 5)) return;
  for (const { marks, remarks } of channels) {
    for (let i = 0; i < zeros; i++) if (marks[i] === TRUSTED) marks[i] = MISSING;
    remarks.set('missing field', ZERO_START_REMARK);
  }
}
