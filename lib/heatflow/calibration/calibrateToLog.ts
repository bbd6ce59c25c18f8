import { findPasses, type Pass } from '../../exposure';
import type { ThermalHistory } from '../../history';
import { type Judged, judged, requireNumber, TemperbookError } from '../../quantity';
import { type FitUnknown, type LeastSquaresFit, leastSquares } from '../../statistics';
import type { Calibration, CalibrationChannel, CalibrationOptions, HeatModel } from './calibration';
import { calibrationWarnings } from './calibrationWarnings';
import { channelResidual, noiseOf } from './channelResidual';
import { type Readings, readingsToCompare } from './readingsToCompare';
import { rememberLast } from './rememberLast';

const CLOCK = 'clock offset';
/** Derivative step as a share of an unknown's range: well above a solver's own error, well below its curvature. */
const STEP_SHARE = 0.01;
/** The clock may be off by this much from what the first pass suggests, s. */
const CLOCK_RANGE_S = 120;

/**
 * Fits a heat-flow model to logged channels: the values of the unknowns for which the predicted histories lie
 * closest to the log, their standard errors and correlations, and a plain warning where the log cannot tell.
 *
 * The fit starts from the passes found in the trace (`findPasses`): they set the clock, and the model gets them to
 * time its own passes by. A common clock offset is fitted along, which costs no model run.
 *
 * Two rounds. The first weighs channels by their `standardErrorC`. The second takes each channel's noise from its
 * residuals and counts a run of residuals of the same sign as few independent readings, not many
 * (n (1 − ρ)/(1 + ρ), ρ the correlation of neighbours), so that standard errors are not too small and priors weigh
 * what they should. An error common to all readings of a probe, such as its calibration, is not in them.
 *
 * @throws TemperbookError on no channels or parameters, a start outside its bounds, a model that gives another
 * number of histories than there are channels, or no overlap of log and model in time.
 */
export function calibrateToLog<Name extends string>(
  channels: readonly CalibrationChannel[],
  model: HeatModel<Name>,
  { parameters, readingsPerChannel = 300, onStep }: CalibrationOptions<Name>,
): Calibration<Name> {
  const names = Object.keys(parameters) as Name[];
  checkChannels(channels, names);
  requireNumber(readingsPerChannel, 'readingsPerChannel', { low: 10, high: 100_000 });
  const passes = findPasses(liveliest(channels).history);
  let modelRuns = 0;
  const asRecord = (values: Float64Array) =>
    Object.fromEntries(names.map((name, j) => [name, values[j]!])) as Record<Name, number>;
  // Only the clock moves for one column of each Jacobian, and the second round starts where the first ended.
  const predict = rememberLast(4 * names.length + 4, (values: Float64Array) => {
    modelRuns++;
    const predicted = model(asRecord(values), passes);
    if (predicted.length !== channels.length)
      throw new TemperbookError('The model gives another number of histories than there are channels', {
        found: `${predicted.length} for ${channels.length}`,
      });
    return predicted;
  });

  const starts = Float64Array.from(names, (name) => parameters[name].start);
  const atStart = predict(starts);
  const clockStart = clockFromPasses(channels, atStart, passes);
  const readings = channels.map(({ name, history }, c) =>
    readingsToCompare(name, history, atStart[c]!, clockStart, readingsPerChannel),
  );
  const fitFrom = (values: readonly number[], clock: number, noise: readonly number[]): LeastSquaresFit =>
    leastSquares(
      (all) => weighted(readings, predict(all.subarray(0, names.length)), all[names.length]!, noise),
      [
        ...names.map((name, j): FitUnknown => {
          const { low, high, prior } = parameters[name];
          return {
            name,
            start: values[j]!,
            low,
            high,
            derivativeStep: STEP_SHARE * (high - low),
            ...(prior ? { prior } : {}),
          };
        }),
        {
          name: CLOCK,
          start: clock,
          low: clockStart - CLOCK_RANGE_S,
          high: clockStart + CLOCK_RANGE_S,
          derivativeStep: 0.02,
        },
      ],
      { noise: 'unit', tolerance: 1e-3, maxIterations: 60, ...(onStep ? { onStep } : {}) },
    );

  const first = fitFrom(
    names.map((name) => parameters[name].start),
    clockStart,
    channels.map((channel) => channel.standardErrorC ?? 2),
  );
  const found = first.unknowns.map((u) => u.value);
  const residualsAt = (values: readonly number[]) => {
    const predicted = predict(Float64Array.from(values.slice(0, -1)));
    return readings.map((r, c) => channelResidual(r, predicted[c]!, values.at(-1)!));
  };
  const noise = residualsAt(found).map((residual) => noiseOf(residual, names.length + 1));
  const fit = fitFrom(found.slice(0, -1), found.at(-1)!, noise);

  const fitted = fit.unknowns.map((u) => u.value);
  const residuals = residualsAt(fitted);
  const band = (j: number, low: number, high: number, unit: string, label: string): Judged => {
    const { value, standardError } = fit.unknowns[j]!;
    return judged(
      value,
      [Math.max(low, value - 2 * standardError), Math.min(high, value + 2 * standardError)],
      unit,
      [`Fitted to ${channels.map((c) => c.name).join(', ')}; band of two standard errors of ${label}.`],
    );
  };
  return {
    values: Object.fromEntries(
      names.map((name, j) => {
        const { low, high, unit = '1', label = name } = parameters[name];
        return [name, band(j, low, high, unit, label)];
      }),
    ) as Record<Name, Judged>,
    standardErrors: Object.fromEntries(
      names.map((name, j) => [name, fit.unknowns[j]!.standardError]),
    ) as Record<Name, number>,
    names: [...names, CLOCK],
    correlation: fit.correlation,
    clockOffsetS: band(names.length, -Infinity, Infinity, 's', CLOCK),
    channels: residuals,
    passes,
    warnings: calibrationWarnings(fit, parameters, residuals),
    converged: first.converged && fit.converged,
    modelRuns,
  };
}

function checkChannels(channels: readonly CalibrationChannel[], names: readonly string[]): void {
  if (channels.length === 0) throw new TemperbookError('A calibration needs at least one logged channel');
  if (names.length === 0) throw new TemperbookError('A calibration needs at least one parameter to find');
  for (const { name, standardErrorC = 2 } of channels)
    requireNumber(standardErrorC, `The standard error of ${name} in °C`, { low: 1e-3, high: 500 });
}

/** The channel with the largest swing: its passes stand out best. */
function liveliest(channels: readonly CalibrationChannel[]): CalibrationChannel {
  const swing = ({ history: { tempC } }: CalibrationChannel) =>
    tempC.reduce((high, t) => Math.max(high, t), -Infinity) -
    tempC.reduce((low, t) => Math.min(low, t), Infinity);
  return channels.reduce((best, channel) => (swing(channel) > swing(best) ? channel : best));
}

/** Log time minus model time: the start of the first pass in the log less that in the prediction. */
function clockFromPasses(
  channels: readonly CalibrationChannel[],
  predicted: readonly ThermalHistory[],
  passes: readonly Pass[],
): number {
  const inModel = findPasses(predicted[channels.indexOf(liveliest(channels))]!);
  return passes[0] && inModel[0] ? passes[0].startS - inModel[0].startS : 0;
}

function weighted(
  readings: readonly Readings[],
  predicted: readonly ThermalHistory[],
  clockOffsetS: number,
  noise: readonly number[],
): Float64Array {
  const parts = readings.map((r, c) =>
    channelResidual(r, predicted[c]!, clockOffsetS).residualC.map((d) => d / noise[c]!),
  );
  const all = new Float64Array(parts.reduce((n, part) => n + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
