import { type ThermalHistory, thermalHistory } from '../../history';

/** A cycle as a weld gives it to the metal beside it. */
export interface WeldCycle {
  readonly peakC: number;
  /** Time spent within `NEAR_PEAK_K` of the peak, s: what a trace shows at a glance. */
  readonly nearPeakS: number;
}

/** How close to its peak a cycle counts as "at the peak", K. */
export const NEAR_PEAK_K = 20;
const AMBIENT_C = 20;
/** Heating takes this part of the time constant of cooling: four times as fast as the first of the cooling. */
const HEATING_SHARE = 1 / 4;
/** Below this nothing happens in minutes, °C. */
const COLD_C = 100;
const COOLING_STEPS = 40;

/**
 * A weld-like cycle from 20 °C: straight up to the peak, then cooling as 20 + (T_p − 20) exp(−t/τ), heated four
 * times as fast as it begins to cool. One number sets the pace, the time within 20 °C of the peak:
 *
 *   t = 20/(4 (T_p − 20)) τ + τ ln[(T_p − 20)/(T_p − 40)].
 *
 * Followed down to 100 °C in steps of equal temperature. For peaks of 120 °C and more. In the example
 * τ is 29.8 s and the metal is heated at 51 K/s.
 * @example 4 * weldCycle({ peakC: 400, nearPeakS: 2 }).timeS[1] // 29.8
 */
export function weldCycle({ peakC, nearPeakS }: WeldCycle): ThermalHistory {
  const riseK = peakC - AMBIENT_C;
  const tauS = nearPeakS / ((HEATING_SHARE * NEAR_PEAK_K) / riseK + Math.log(riseK / (riseK - NEAR_PEAK_K)));
  const timeS = [0, HEATING_SHARE * tauS];
  const tempC = [AMBIENT_C, peakC];
  for (let k = 1; k <= COOLING_STEPS; k++) {
    const c = peakC - ((peakC - COLD_C) * k) / COOLING_STEPS;
    timeS.push(timeS[1]! + tauS * Math.log(riseK / (c - AMBIENT_C)));
    tempC.push(c);
  }
  return thermalHistory(timeS, tempC);
}
