import { findTemper, loadAlloy } from '../../alloy';
import { thermalHistory } from '../../history';
import type { RangeRemark, StartState, TemperModel, TemperTrajectory } from '../../kinetics';
import type { MeasuredFact } from '../evidence/measuredFact';

/**
 * Times the last soak of a fact is stretched by, even in the logarithm: from 1/32 to 32, in the middle 1. Steps of
 * 5.9 %, between which answers are interpolated.
 */
export const STRETCHES: Float64Array = Float64Array.from({ length: 121 }, (_, k) => 32 ** (k / 60 - 1));
/** Place of the factor 1 among `STRETCHES`. */
export const UNSTRETCHED = 60;

/** What a model says of a fact, for every stretch of its last soak. Arrays as long as `STRETCHES`. */
export interface StretchedAnswers {
  /** Yield kept, or MPa, as the fact has it. */
  readonly nominal: Float64Array;
  /** Band of the unstretched answer; absent where the model has none. */
  readonly band?: { readonly low: number; readonly high: number };
  readonly remarks: readonly RangeRemark[];
}

/** Soaks follow each other within this, s. */
const STEP_S = 0.001;

/** One run of a model from a state along a fact's exposure, its last soak sampled at every stretch. */
export function stretchedAnswers(model: TemperModel, state: unknown, fact: MeasuredFact): StretchedAnswers {
  const timeS: number[] = [];
  const tempC: number[] = [];
  let startS = 0;
  for (const [k, soak] of fact.exposure.entries()) {
    timeS.push(startS);
    tempC.push(soak.tempC);
    if (k < fact.exposure.length - 1) {
      timeS.push(startS + soak.timeS);
      tempC.push(soak.tempC);
      startS += soak.timeS + STEP_S;
    } else
      for (const stretch of STRETCHES) {
        timeS.push(startS + soak.timeS * stretch);
        tempC.push(soak.tempC);
      }
  }
  const end: Lines = model.advance(state, thermalHistory(timeS, tempC));
  const first = timeS.length - STRETCHES.length;
  const kept = fact.temper !== undefined;
  const at = first + UNSTRETCHED;
  const perKept = end.yieldMPa[at]! / end.yieldKeptFraction[at]!;
  const low = kept ? (end.yieldKeptLow?.[at] ?? over(end.yieldLowMPa?.[at], perKept)) : end.yieldLowMPa?.[at];
  const high = kept
    ? (end.yieldKeptHigh?.[at] ?? over(end.yieldHighMPa?.[at], perKept))
    : end.yieldHighMPa?.[at];
  return {
    nominal: (kept ? end.yieldKeptFraction : end.yieldMPa).slice(first),
    ...(low !== undefined && high !== undefined ? { band: { low, high } } : {}),
    remarks: end.remarks,
  };
}

interface Lines extends TemperTrajectory<unknown> {
  readonly yieldKeptLow?: Float64Array;
  readonly yieldKeptHigh?: Float64Array;
  readonly yieldLowMPa?: Float64Array;
  readonly yieldHighMPa?: Float64Array;
}

const over = (mpa: number | undefined, perKept: number): number | undefined =>
  mpa === undefined ? undefined : mpa / perKept;

/** Where a fact starts: an aged temper at the yield measured before, or else at the card's typical one. */
export function startOf({ alloy, temper, startYieldMPa }: MeasuredFact): StartState {
  if (temper === undefined) return { solutionTreated: true };
  const typicalMPa = findTemper(loadAlloy(alloy), temper).entry.yieldMPa.value;
  return { temper, measuredYieldMPa: startYieldMPa ?? typicalMPa };
}
