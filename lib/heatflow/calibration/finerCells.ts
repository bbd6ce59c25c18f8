import { type ThermalHistory, tempAt, thermalHistory } from '../../history';
import type { LeastSquaresFit } from '../../statistics';
import type { PredictedHistory } from './calibration';
import { modelTime, type PassClock } from './passClock';
import type { Readings } from './readingsToCompare';

/** What finer cells add to a prediction, K, on the model's clock: one history a channel. */
export const finerLess = (
  fine: readonly PredictedHistory[],
  coarse: readonly PredictedHistory[],
): ThermalHistory[] =>
  coarse.map(({ timeS, tempC }, c) =>
    thermalHistory(
      timeS,
      tempC.map((temp, i) => tempAt(fine[c]!, timeS[i]!) - temp),
    ),
  );

/** A prediction with what finer cells add to it. */
export const withFiner = (
  predicted: readonly PredictedHistory[],
  more: readonly ThermalHistory[],
): PredictedHistory[] =>
  predicted.map((history, c) => ({
    ...history,
    tempC: history.tempC.map((temp, i) => temp + tempAt(more[c]!, history.timeS[i]!)),
  }));

/**
 * By how much finer cells moved each unknown: C Jᵀ Δ, with C the covariance of the fit, J the derivative of its residuals
 * and Δ what the cells add to its predictions, both weighed.
 */
export function movedByCells(
  { unknowns, correlation, derived: { jacobian } }: LeastSquaresFit,
  more: readonly ThermalHistory[],
  readings: readonly Readings[],
  clock: PassClock,
  offsetsS: ArrayLike<number>,
  noiseC: readonly number[],
): number[] {
  const down = new Float64Array(unknowns.length);
  let row = 0;
  for (const [c, { timeS }] of readings.entries())
    for (const at of timeS) {
      const weighed = tempAt(more[c]!, modelTime(clock, offsetsS, at)) / noiseC[c]!;
      for (let j = 0; j < down.length; j++) down[j]! += jacobian.get(row, j) * weighed;
      row++;
    }
  const error = (j: number) => {
    const { standardError } = unknowns[j]!;
    return Number.isFinite(standardError) ? standardError : 0;
  };
  return unknowns.map((_, j) =>
    down.reduce((sum, d, k) => sum + correlation[j]![k]! * error(j) * error(k) * d, 0),
  );
}
