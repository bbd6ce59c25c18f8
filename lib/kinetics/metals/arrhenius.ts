import { GAS_CONSTANT, ZERO_C_IN_K } from '../../quantity';
import type { ArrheniusTime } from './plausibleMetal';

/** The clock of an Arrhenius time for the inner loop: rate in 1/s = exp(`atInfinity` − `perInverseK` / T). */
export interface RateClock {
  readonly atInfinity: number;
  readonly perInverseK: number;
}

/**
 * The rate of an Arrhenius time t(T) = t₀ exp[E/R (1/T − 1/T₀)], ready for the inner loop: 1/t = exp(`atInfinity` −
 * `perInverseK`/T), so `perInverseK` = E/R and `atInfinity` = E/(R T₀) − ln t₀ (derived).
 */
export function rateClock({ timeS, atC, energyJPerMol }: ArrheniusTime): RateClock {
  const perInverseK = energyJPerMol / GAS_CONSTANT;
  return { perInverseK, atInfinity: perInverseK / (atC + ZERO_C_IN_K) - Math.log(timeS) };
}

/** Below this change of the exponent the plain mean of the two rates is as good as the logarithmic, 1e-7. */
const SMALL = 1e-3;

/**
 * Mean of a rate whose logarithm runs straight from one end to the other, (r₁ − r₀)/ln(r₁/r₀), derived by integration;
 * `byLog` is ln(`end`/`start`).
 */
export function meanRate(start: number, end: number, byLog: number): number {
  return byLog < SMALL && byLog > -SMALL ? (start + end) / 2 : (end - start) / byLog;
}

/**
 * What a decay takes in x of its times, 1 − e⁻ˣ for x ≥ 0. Small ones, the rule on a step, by the first five terms of the
 * series (the sixth is below 2e-13 of the whole): no call out of compiled code.
 */
export function goneAfter(x: number): number {
  return x < 1e-2 ? x * (1 - x * (1 / 2 - x * (1 / 6 - x * (1 / 24 - x * (1 / 120))))) : -Math.expm1(-x);
}

/** Mean of exp(−x u) over 0 ≤ u ≤ 1: (1 − e⁻ˣ)/x, for x ≥ 0. */
export function meanOfDecay(x: number): number {
  return x < SMALL ? 1 - x / 2 + (x * x) / 6 : goneAfter(x) / x;
}

/** Rate of an Arrhenius time at a temperature, 1/s. */
export function rateAt(time: ArrheniusTime, tempC: number): number {
  const { atInfinity, perInverseK } = rateClock(time);
  return Math.exp(atInfinity - perInverseK / (tempC + ZERO_C_IN_K));
}
