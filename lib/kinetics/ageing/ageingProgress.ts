import { celsiusToKelvin, GAS_CONSTANT } from '../../quantity';
import type { AgeingShape } from './ageingShape';

/** Where ageing from the quenched state stands. */
export interface AgeingProgress {
  /** Temperature-corrected time P* = ∫ dt/t_p(T), t_p ∝ T exp(Q_A/RT). */
  readonly correctedTime: number;
  /** What can precipitate, 1 − exp[−(Q_s/R)(1/T − 1/T_s)], averaged over P*: 0 … 1. */
  readonly capacity: number;
}

/** Freshly quenched. */
export const NOT_AGED: AgeingProgress = { correctedTime: 0, capacity: 0 };

/** Longest change of Q_A/RT over one Simpson panel pair: relative error below 1e-5. */
const STEP = 0.5;

/** A stretch of history along which temperature runs straight from one value to another. */
export interface StraightStep {
  readonly spanS: number;
  readonly startC: number;
  readonly endC: number;
}

/**
 * The progress after one more step. P* adds up whatever the steps; the capacity, a function
 * of temperature in the isothermal model, is averaged with dP* as its weight, so that the step which did the
 * ageing sets it and cooling down afterwards does not.
 */
export function advanceProgress(
  shape: AgeingShape,
  progress: AgeingProgress,
  { spanS, startC, endC }: StraightStep,
): AgeingProgress {
  const startK = celsiusToKelvin(startC);
  const endK = celsiusToKelvin(endC);
  const exponent = shape.activationEnergyJPerMol / GAS_CONSTANT;
  const panels = 2 * Math.max(1, Math.ceil(Math.abs(exponent / startK - exponent / endK) / STEP));
  let time = 0;
  let weighted = 0;
  for (let k = 0; k <= panels; k++) {
    const tempK = startK + ((endK - startK) * k) / panels;
    const weight = k === 0 || k === panels ? 1 : k % 2 === 1 ? 4 : 2;
    const rate =
      (shape.referenceK / tempK) *
      Math.exp(exponent * (1 / shape.referenceK - 1 / tempK)) *
      (spanS / (3 * panels * shape.peakTimeS));
    time += weight * rate;
    weighted += weight * rate * capacityAt(shape, tempK);
  }
  const correctedTime = progress.correctedTime + time;
  const capacity =
    correctedTime > 0 ? (progress.capacity * progress.correctedTime + weighted) / correctedTime : 0;
  return { correctedTime, capacity };
}

/** A soak as one step. */
export const soakStep = (tempC: number, timeS: number): StraightStep => ({
  spanS: timeS,
  startC: tempC,
  endC: tempC,
});

const capacityAt = ({ solvusEnthalpyJPerMol, solvusK }: AgeingShape, tempK: number): number =>
  Math.max(0, -Math.expm1(-(solvusEnthalpyJPerMol / GAS_CONSTANT) * (1 / tempK - 1 / solvusK)));
