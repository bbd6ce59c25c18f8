import { requireNumber, TemperbookError } from '../quantity';
import { slice } from './slice';
import { checkHistory, type ThermalHistory } from './thermalHistory';

/**
 * How the part loses heat when left alone: Newtonian cooling, T = T_a + (T₀ − T_a) exp(−t/τ), as a small
 * aluminium part in still air does nearly.
 */
export interface PartCooling {
  /** Temperature the part cools towards, °C. */
  readonly ambientC: number;
  /** τ in s; without it, fitted to the trace's own cooling (`coolingTimeConstant`). */
  readonly timeConstantS?: number;
}

/** A sample this much below the hottest seen since marks the far side of the peak when walking back, K. */
const OVER_THE_PEAK_K = 10;
/** Readings closer to ambient than this say nothing about the rate of cooling, K. */
const NEAR_AMBIENT_K = 2;
/** A fit needs at least this fall of temperature, K. */
const LEAST_FALL_K = 5;

/**
 * Newtonian time constant τ in s of the cooling that leads up to `atS`: least squares of ln(T − T_ambient)
 * against time over the later half (in time) of the cooling leg, because in its first half the heat of the
 * weld is still spreading into the part. The leg starts at the hottest sample before `atS` that is not behind
 * a rise of 10 K, and never reaches across a gap. Source: lumped capacity model, any heat-transfer textbook.
 * @throws TemperbookError when there is no such leg: fewer than 3 samples, or a fall of less than 5 K.
 */
export function coolingTimeConstant(history: ThermalHistory, atS: number, ambientC: number): number {
  checkHistory(history);
  requireNumber(ambientC, 'Ambient temperature in °C');
  const { timeS, tempC } = coolingLeg(history, atS);
  const last = timeS.length - 1;
  const halfS = (timeS[0]! + timeS[last]!) / 2;
  const points: { readonly t: number; readonly y: number }[] = [];
  for (let i = 0; i <= last; i++)
    if (timeS[i]! >= halfS && tempC[i]! - ambientC > NEAR_AMBIENT_K)
      points.push({ t: timeS[i]! - halfS, y: Math.log(tempC[i]! - ambientC) });
  const n = points.length;
  const meanT = points.reduce((sum, { t }) => sum + t, 0) / n;
  const meanY = points.reduce((sum, { y }) => sum + y, 0) / n;
  const spread = points.reduce((sum, { t }) => sum + (t - meanT) ** 2, 0);
  const slope = points.reduce((sum, { t, y }) => sum + (t - meanT) * (y - meanY), 0) / spread;
  const fallK = n < 3 ? 0 : Math.exp(points[0]!.y) - Math.exp(points[n - 1]!.y);
  if (!(slope < 0) || fallK < LEAST_FALL_K)
    throw new TemperbookError('The trace does not show how fast the part cools', {
      found: `${n} usable samples falling ${fallK.toFixed(1)} °C before ${atS} s`,
      expected: `at least 3 samples more than ${NEAR_AMBIENT_K} °C above ${ambientC} °C, falling ${LEAST_FALL_K} °C or more`,
      remedy: 'Give the cooling time constant, or choose a time at the end of a cooling leg',
    });
  return -1 / slope;
}

/** The given time constant, or the trace's own before `atS`. */
export function timeConstantOf(history: ThermalHistory, atS: number, cooling: PartCooling): number {
  requireNumber(cooling.ambientC, 'Ambient temperature in °C');
  return cooling.timeConstantS === undefined
    ? coolingTimeConstant(history, atS, cooling.ambientC)
    : requireNumber(cooling.timeConstantS, 'Cooling time constant in s', { low: Number.MIN_VALUE });
}

function coolingLeg(history: ThermalHistory, atS: number): ThermalHistory {
  const before = slice(history, history.timeS[0]!, atS);
  const { timeS, tempC, gapAfter } = before;
  const last = timeS.length - 1;
  const recordedFrom = gapAfter === undefined ? 0 : gapAfter[gapAfter.length - 1]! + 1;
  let hottest = last;
  for (let i = last; i >= recordedFrom && tempC[i]! > tempC[hottest]! - OVER_THE_PEAK_K; i--)
    if (tempC[i]! > tempC[hottest]!) hottest = i;
  return slice(before, timeS[hottest]!, timeS[last]!);
}
