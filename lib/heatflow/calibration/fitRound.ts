import {
  type Derivative,
  type Derived,
  type FitUnknown,
  type LeastSquaresFit,
  leastSquares,
} from '../../statistics';
import type { CalibrationOptions, PredictedHistory } from './calibration';
import { residualOf } from './channelResidual';
import type { PassClock } from './passClock';
import type { Readings } from './readingsToCompare';

/** Derivative step as a share of an unknown's range: well above a solver's own error, well below its curvature. */
const STEP_SHARE = 0.01;
/**
 * The same as a share of what was known before: an unknown that stands in for others is held by its prior alone, and
 * the solver's error in too short a step would pass for knowledge.
 */
const PRIOR_STEP = 0.5;
/** A pass may lie this far from where the foot of its rise suggests, s. */
const CLOCK_RANGE_S = 60;
const CLOCK_STEP_S = 0.02;
/** The last round ends when its next step would go no further than this many standard errors. */
const WITHIN_ERRORS = 0.1;
/**
 * One before it tells how large the noise is and how long it lasts, and ends with a step that promises to lower its
 * square by no more than this share.
 */
const ROUGH = 1e-3;

/** What a round of a calibration compares, and on what clock. */
export interface RoundOf<Name extends string> {
  readonly parameters: CalibrationOptions<Name>['parameters'];
  readonly readings: readonly Readings[];
  readonly clock: PassClock;
  readonly predict: (values: Float64Array) => readonly PredictedHistory[];
  readonly onStep: CalibrationOptions<Name>['onStep'];
}

/** Where a round begins. */
export interface RoundStart {
  readonly values: readonly number[];
  readonly offsetsS: readonly number[];
  /** What a reading of each channel counts with, °C. */
  readonly noiseC: readonly number[];
  readonly derivative: Derivative;
  /** The round before, whose derivative serves on. */
  readonly after?: Round;
}

/** Where a round ended. */
export interface Round {
  readonly fit: LeastSquaresFit;
  readonly values: Float64Array;
  readonly offsetsS: Float64Array;
  readonly noiseC: readonly number[];
}

/** One least-squares fit of the unknowns and of one clock offset per pass, each channel weighed by its noise. */
export function fitRound<Name extends string>(
  { parameters, readings, clock, predict, onStep }: RoundOf<Name>,
  { values, offsetsS, noiseC, derivative, after }: RoundStart,
): Round {
  const names = Object.keys(parameters) as Name[];
  const split = (all: Float64Array) => [all.slice(0, names.length), all.slice(names.length)] as const;
  const fit = leastSquares(
    (all) => {
      const [here, now] = split(all);
      const predicted = predict(here);
      return joined(
        readings.map((r, c) => residualOf(r, predicted[c]!, clock, now).map((d) => d / noiseC[c]!)),
      );
    },
    [...parameterUnknowns(parameters, names, values), ...clockUnknowns(offsetsS)],
    {
      noise: 'unit',
      tolerance: 1e-3,
      ...(derivative === 'kept' ? { withinErrors: WITHIN_ERRORS } : { trifle: ROUGH }),
      maxIterations: 60,
      derivative,
      ...(after ? { derived: reweighed(after, readings, noiseC) } : {}),
      ...(onStep ? { onStep } : {}),
    },
  );
  const [found, offsetsFound] = split(Float64Array.from(fit.unknowns, (u) => u.value));
  return { fit, values: found, offsetsS: offsetsFound, noiseC };
}

/** The derivative of a round with its readings weighed anew. */
function reweighed(
  { fit, noiseC: before }: Round,
  readings: readonly Readings[],
  noiseC: readonly number[],
): Derived {
  const jacobian = fit.derived.jacobian.clone();
  let row = 0;
  for (const [c, { timeS }] of readings.entries())
    for (let i = 0; i < timeS.length; i++, row++) jacobian.mulRow(row, before[c]! / noiseC[c]!);
  return { ...fit.derived, jacobian };
}

function parameterUnknowns<Name extends string>(
  parameters: CalibrationOptions<Name>['parameters'],
  names: readonly Name[],
  values: readonly number[],
): FitUnknown[] {
  return names.map((name, j) => {
    const { low, high, prior } = parameters[name];
    const derivativeStep = Math.max(STEP_SHARE * (high - low), PRIOR_STEP * (prior?.standardError ?? 0));
    return { name, start: values[j]!, low, high, derivativeStep, ...(prior ? { prior } : {}) };
  });
}

const clockUnknowns = (offsetsS: readonly number[]): FitUnknown[] =>
  offsetsS.map((start, k) => ({
    name: `clock of pass ${k + 1}`,
    start,
    low: start - CLOCK_RANGE_S,
    high: start + CLOCK_RANGE_S,
    derivativeStep: CLOCK_STEP_S,
  }));

function joined(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((n, part) => n + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
