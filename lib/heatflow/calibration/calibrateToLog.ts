import { findPasses, type Pass } from '../../exposure';
import { type Judged, judged, requireNumber, TemperbookError } from '../../quantity';
import { type FitUnknown, type LeastSquaresFit, leastSquares } from '../../statistics';
import type {
  Calibration,
  CalibrationChannel,
  CalibrationOptions,
  HeatModel,
  PredictedHistory,
} from './calibration';
import { calibrationWarnings } from './calibrationWarnings';
import { type ChannelResidual, channelResidual, noiseOf, residualOf } from './channelResidual';
import { checkCalibration } from './checkCalibration';
import { offsetsAfter, offsetsFromPasses, passClock, retimed } from './passClock';
import { readingsToCompare } from './readingsToCompare';
import { rememberLast } from './rememberLast';

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

/**
 * Fits a heat-flow model to logged channels: the values of the unknowns for which the predicted histories lie
 * closest to the log, their standard errors and correlations, and a plain warning where the log cannot tell.
 *
 * The fit starts from the passes found in the trace (`findPasses`): they set the clock, and the model gets them to
 * time its own passes by. One clock offset per pass is fitted along; it costs no model run.
 *
 * Two rounds. The first weighs channels by their `standardErrorC`. The second takes each channel's noise from its
 * residuals and counts residuals that go together as few independent readings, not many (`noiseOf`), so that priors
 * weigh what they should; it also gives the model the passes as far apart as the first round found them to be.
 *
 * Standard errors hold for white noise and for noise that lasts up to a tenth of the log: two of them held the truth
 * of 87 to 98 in 100 invented logs, where 95 would be ideal. Where readings are thinned out, slow noise makes them up
 * to 1.6 times too small. An error common to all readings of a probe, such as its calibration, is not in them, nor is
 * a wrong number in the plan.
 *
 * @throws TemperbookError on no channels or parameters, bounds missing, a start or a prior outside them, a model that
 * gives another number of histories than there are channels, or no overlap of log and model in time.
 */
export function calibrateToLog<Name extends string>(
  channels: readonly CalibrationChannel[],
  model: HeatModel<Name>,
  { parameters, readingsPerChannel = 5000, onStep }: CalibrationOptions<Name>,
): Calibration<Name> {
  const names = Object.keys(parameters) as Name[];
  checkCalibration(channels, parameters);
  requireNumber(readingsPerChannel, 'readingsPerChannel', { low: 10, high: 100_000 });
  const leader = channels.indexOf(liveliest(channels));
  const passes = findPasses(channels[leader]!.history);
  let modelRuns = 0;
  // Only a clock moves in some columns of each Jacobian, and a fit starts where one ended: those runs are not repeated.
  const predictor = (timing: readonly Pass[]) =>
    rememberLast(4 * names.length + 4, (values: Float64Array) => {
      modelRuns++;
      return runModel(model, names, values, timing, channels.length);
    });

  const starts = names.map((name) => parameters[name].start);
  let predict = predictor(passes);
  const atStart = predict(Float64Array.from(starts));
  const clock = passClock(passes);
  const offsets = offsetsFromPasses(passes, findPasses(atStart[leader]!));
  const readings = channels.map(({ name, history }, c) =>
    readingsToCompare(name, history, atStart[c]!, offsets, readingsPerChannel),
  );
  const split = (all: Float64Array) => ({
    predicted: predict(all.slice(0, names.length)),
    offsetsS: all.subarray(names.length),
  });
  const fitFrom = (values: readonly number[], offsetsS: readonly number[], noise: readonly number[]) =>
    leastSquares(
      (all) => {
        const { predicted, offsetsS: now } = split(all);
        return concatenate(
          readings.map((r, c) => residualOf(r, predicted[c]!, clock, now).map((d) => d / noise[c]!)),
        );
      },
      [...parameterUnknowns(parameters, names, values), ...clockUnknowns(offsetsS)],
      { noise: 'unit', tolerance: 1e-3, maxIterations: 60, ...(onStep ? { onStep } : {}) },
    );
  const endOf = (fit: LeastSquaresFit) => split(Float64Array.from(fit.unknowns, (u) => u.value));
  const residualsOf = (fit: LeastSquaresFit): ChannelResidual[] => {
    const { predicted, offsetsS } = endOf(fit);
    return readings.map((r, c) => channelResidual(r, predicted[c]!, clock, offsetsS));
  };

  const first = fitFrom(
    starts,
    offsets,
    channels.map((channel) => channel.standardErrorC ?? 2),
  );
  const noise = residualsOf(first).map((residual) =>
    noiseOf(residual, first.unknowns.length / channels.length),
  );
  const found = first.unknowns.map((u) => u.value);
  const values = found.slice(0, names.length);
  let offsetsFound = found.slice(names.length);
  if (passes.length > 1) {
    const before = findPasses(predict(Float64Array.from(values))[leader]!);
    predict = predictor(retimed(passes, offsetsFound));
    const after = findPasses(predict(Float64Array.from(values))[leader]!);
    offsetsFound = offsetsAfter(offsetsFound, before, after);
  }
  const fit = fitFrom(values, offsetsFound, noise);
  const residuals = residualsOf(fit);
  const because = [`Fitted to ${channels.map((c) => c.name).join(', ')}; the band is two standard errors.`];
  const band = (j: number, unit: string, low = -Infinity, high = Infinity): Judged => {
    const { value, standardError } = fit.unknowns[j]!;
    const ends = [Math.max(low, value - 2 * standardError), Math.min(high, value + 2 * standardError)];
    return judged(value, ends, unit, because);
  };
  return {
    values: record(names, (name, j) => {
      const { low, high, unit = '1' } = parameters[name];
      return band(j, unit, low, high);
    }),
    standardErrors: record(names, (_, j) => fit.unknowns[j]!.standardError),
    names,
    correlation: names.map((_, j) => fit.correlation[j]!.slice(0, names.length)),
    clockOffsetsS: offsets.map((_, k) => band(names.length + k, 's')),
    channels: residuals,
    passes,
    warnings: [
      ...endOf(fit).predicted.flatMap(({ remarks = [] }) => remarks),
      ...calibrationWarnings(fit, parameters, residuals),
    ],
    converged: first.converged && fit.converged,
    modelRuns,
  };
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

function runModel<Name extends string>(
  model: HeatModel<Name>,
  names: readonly Name[],
  values: Float64Array,
  passes: readonly Pass[],
  channels: number,
): readonly PredictedHistory[] {
  const predicted = model(
    record(names, (_, j) => values[j]!),
    passes,
  );
  if (predicted.length === channels) return predicted;
  throw new TemperbookError('The model gives another number of histories than there are channels', {
    found: `${predicted.length} for ${channels}`,
  });
}

/** The channel with the largest swing: its passes stand out best. */
function liveliest(channels: readonly CalibrationChannel[]): CalibrationChannel {
  const swing = ({ history: { tempC } }: CalibrationChannel) =>
    tempC.reduce((high, t) => Math.max(high, t), -Infinity) -
    tempC.reduce((low, t) => Math.min(low, t), Infinity);
  return channels.reduce((best, channel) => (swing(channel) > swing(best) ? channel : best));
}

function record<Name extends string, Value>(
  names: readonly Name[],
  make: (name: Name, j: number) => Value,
): Record<Name, Value> {
  return Object.fromEntries(names.map((name, j) => [name, make(name, j)])) as Record<Name, Value>;
}

function concatenate(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((n, part) => n + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
