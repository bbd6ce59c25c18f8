import { type ThermalHistory, tempAt } from '../../history';
import { modelTime, onLogClock, type PassClock } from './passClock';
import type { Readings } from './readingsToCompare';

/** How far the fitted model lies from one channel. */
export interface ChannelResidual {
  readonly name: string;
  /** Log times compared, s. */
  readonly timeS: Float64Array;
  /** Reading minus prediction, °C. */
  readonly residualC: Float64Array;
  readonly rmsC: number;
  /** Largest distance either way, °C. */
  readonly worstC: number;
  /** Swing of the readings compared, K: what `rmsC` is to be measured by. */
  readonly swingK: number;
  /** Correlation of neighbouring residuals: near 0 for noise, near 1 where the model is off for long stretches. */
  readonly persistence: number;
  /** What the model predicts, on the log's clock. */
  readonly predicted: ThermalHistory;
}

/** A residual below this is the logger's resolution, not evidence of a perfect model, °C. */
const LEAST_NOISE_C = 0.1;

/** Reading minus prediction at every reading, °C. */
export function residualOf(
  { timeS, tempC }: Readings,
  predicted: ThermalHistory,
  clock: PassClock,
  offsetsS: ArrayLike<number>,
): Float64Array {
  return tempC.map((temp, i) => temp - tempAt(predicted, modelTime(clock, offsetsS, timeS[i]!)));
}

/** The same with what a user wants to know of it. */
export function channelResidual(
  readings: Readings,
  predicted: ThermalHistory,
  clock: PassClock,
  offsetsS: ArrayLike<number>,
): ChannelResidual {
  const { name, timeS, tempC } = readings;
  const residualC = residualOf(readings, predicted, clock, offsetsS);
  return {
    name,
    timeS,
    residualC,
    rmsC: Math.sqrt(residualC.reduce((sum, r) => sum + r * r, 0) / residualC.length),
    worstC: residualC.reduce((worst, r) => Math.max(worst, Math.abs(r)), 0),
    swingK: Math.max(...tempC) - Math.min(...tempC),
    persistence: correlationAt(residualC, 1),
    predicted: onLogClock(clock, offsetsS, predicted),
  };
}

/**
 * Standard error one reading counts with, °C, so that n of them weigh as much as the n / τ independent ones they are
 * worth: τ = 1 + 2 Σ ρ_k, ρ_k the correlation of residuals k readings apart, summed up to the first that is not
 * positive, for what follows is noise. Each unknown takes up one independent reading.
 * Source, from memory: M. B. Priestley, Spectral Analysis and Time Series, 1981, section 5.3.2 (variance of a mean);
 * C. J. Geyer, Statistical Science 7 (1992) 473 (where to end the sum).
 */
export function noiseOf({ residualC }: ChannelResidual, unknowns: number): number {
  const n = residualC.length;
  let tau = 1;
  for (let lag = 1; lag < n; lag++) {
    const rho = correlationAt(residualC, lag);
    if (rho <= 0) break;
    tau += 2 * rho;
  }
  const free = Math.max(1, n / tau - unknowns);
  return Math.max(Math.sqrt(productSum(residualC, 0) / free), LEAST_NOISE_C * Math.sqrt(tau));
}

/** Correlation of residuals `lag` readings apart; 0 where there is no residual at all. */
function correlationAt(residualC: Float64Array, lag: number): number {
  const total = productSum(residualC, 0);
  return total > 0 ? productSum(residualC, lag) / total : 0;
}

/** Sum of the products of residuals `lag` readings apart. */
function productSum(residualC: Float64Array, lag: number): number {
  let sum = 0;
  for (let i = lag; i < residualC.length; i++) sum += residualC[i]! * residualC[i - lag]!;
  return sum;
}
