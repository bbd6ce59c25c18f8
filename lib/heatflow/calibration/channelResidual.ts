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
    persistence: persistenceOf(residualC),
    predicted: onLogClock(clock, offsetsS, predicted),
  };
}

/**
 * Standard error one reading counts with, °C: the spread of the residuals, larger where neighbours agree, for then
 * n readings are worth only n (1 − ρ)/(1 + ρ).
 */
export function noiseOf({ residualC, persistence }: ChannelResidual, unknowns: number): number {
  const n = residualC.length;
  const total = residualC.reduce((sum, r) => sum + r * r, 0);
  const spread = Math.max(Math.sqrt(total / Math.max(1, n - unknowns)), LEAST_NOISE_C);
  const rho = Math.min(Math.max(persistence, 0), 1 - 2 / n);
  return spread * Math.sqrt((1 + rho) / (1 - rho));
}

function persistenceOf(residualC: Float64Array): number {
  const total = residualC.reduce((sum, r) => sum + r * r, 0);
  const neighbours = residualC.reduce((sum, r, i) => (i === 0 ? 0 : sum + r * residualC[i - 1]!), 0);
  return total > 0 ? neighbours / total : 0;
}
