import { findPasses, type Pass } from '../../exposure';
import type { ThermalHistory } from '../../history';
import { type Judged, judged, requireNumber, TemperbookError } from '../../quantity';
import type {
  Calibration,
  CalibrationChannel,
  CalibrationOptions,
  HeatModel,
  PredictedHistory,
} from './calibration';
import { calibrationWarnings } from './calibrationWarnings';
import { type ChannelResidual, channelResidual, noiseOf } from './channelResidual';
import { checkCalibration } from './checkCalibration';
import { finerLess, movedByCells, withFiner } from './finerCells';
import { fitRound, type Round } from './fitRound';
import { offsetsAfter, offsetsFromPasses, passClock, retimed } from './passClock';
import { readingsToCompare } from './readingsToCompare';
import { rememberLast } from './rememberLast';

/** What is left of the error of the cells, of what finer ones moved: they are of second order. */
const LEFT_OF_CELLS = 1 / 3;

/**
 * Fits a heat-flow model to logged channels: the values of the unknowns for which the predicted histories lie
 * closest to the log, their standard errors and correlations, and a plain warning where the log cannot tell.
 *
 * The fit starts from the passes found in the trace (`findPasses`): they set the clock, and the model gets them to
 * time its own passes by. One clock offset per pass is fitted along; it costs no model run.
 *
 * Two rounds. The first weighs channels by their `standardErrorC`. The second takes each channel's noise from its
 * residuals and counts residuals that go together as few independent readings, not many (`noiseOf`), so that priors
 * weigh what they should; it also gives the model the passes as far apart as the first round found them to be. The
 * derivative of the first serves the second, and is taken anew where it no longer tells what a step does and for the
 * standard errors.
 *
 * Given the same model on finer cells, that is run once, after the first round, and what it changes is added to every
 * prediction from then on. A third of what that moves a value by may be left, and goes into its standard error.
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
  { parameters, readingsPerChannel = 5000, finer, onStep }: CalibrationOptions<Name>,
): Calibration<Name> {
  const names = Object.keys(parameters) as Name[];
  checkCalibration(channels, parameters);
  requireNumber(readingsPerChannel, 'readingsPerChannel', { low: 10, high: 100_000 });
  const leader = channels.indexOf(liveliest(channels));
  const passes = findPasses(channels[leader]!.history);
  let modelRuns = 0;
  const run = (of: HeatModel<Name>, values: Float64Array, timing: readonly Pass[]) => {
    modelRuns++;
    return runModel(of, names, values, timing, channels.length);
  };
  // Only a clock moves in some columns of each Jacobian, and a fit starts where one ended: those runs are not repeated.
  const predictor = (timing: readonly Pass[]) =>
    rememberLast(4 * names.length + 4, (values: Float64Array) => run(model, values, timing));

  const starts = Float64Array.from(names, (name) => parameters[name].start);
  let predict = predictor(passes);
  const atStart = predict(starts);
  const clock = passClock(passes);
  const offsets = offsetsFromPasses(passes, findPasses(atStart[leader]!));
  const readings = channels.map(({ name, history }, c) =>
    readingsToCompare(name, history, atStart[c]!, offsets, readingsPerChannel),
  );
  let more: readonly ThermalHistory[] | undefined;
  const predictNow = (values: Float64Array) => (more ? withFiner(predict(values), more) : predict(values));
  const round = { parameters, readings, clock, predict: predictNow, onStep };
  const residualsOf = ({ values, offsetsS }: Round): ChannelResidual[] => {
    const predicted = predictNow(values);
    return readings.map((r, c) => channelResidual(r, predicted[c]!, clock, offsetsS));
  };

  const usualC = channels.map((channel) => channel.standardErrorC ?? 2);
  const rough = { noiseC: usualC, derivative: 'kept to the end' } as const;
  let first = fitRound(round, { ...rough, values: [...starts], offsetsS: offsets });
  let roughly = residualsOf(first);
  let timing: readonly Pass[] = passes;
  let offsetsS = [...first.offsetsS];
  if (passes.length > 1) {
    const before = findPasses(predict(first.values)[leader]!);
    timing = retimed(passes, first.offsetsS);
    predict = predictor(timing);
    const after = findPasses(predict(first.values)[leader]!);
    offsetsS = offsetsAfter(first.offsetsS, before, after);
  }
  if (finer) {
    more = finerLess(run(finer, first.values, timing), predict(first.values));
    first = fitRound(round, { ...rough, values: [...first.values], offsetsS, after: first });
    roughly = residualsOf(first);
    offsetsS = [...first.offsetsS];
  }
  const perChannel = first.fit.unknowns.length / channels.length;
  const noiseC = roughly.map((residual) => noiseOf(residual, perChannel));
  const last = fitRound(round, {
    values: [...first.values],
    offsetsS,
    noiseC,
    derivative: 'kept',
    after: first,
  });
  const { fit } = last;
  const moved = more ? movedByCells(fit, more, readings, clock, last.offsetsS, noiseC) : [];
  const errorOf = (j: number) => Math.hypot(fit.unknowns[j]!.standardError, LEFT_OF_CELLS * (moved[j] ?? 0));
  const residuals = residualsOf(last);
  const because = [`Fitted to ${channels.map((c) => c.name).join(', ')}; the band is two standard errors.`];
  const band = (j: number, unit: string, low = -Infinity, high = Infinity): Judged => {
    const { value } = fit.unknowns[j]!;
    const away = 2 * errorOf(j);
    const ends = [Math.max(low, value - away), Math.min(high, value + away)];
    return judged(value, ends, unit, because);
  };
  return {
    values: record(names, (name, j) => {
      const { low, high, unit = '1' } = parameters[name];
      return band(j, unit, low, high);
    }),
    standardErrors: record(names, (_, j) => errorOf(j)),
    names,
    correlation: names.map((_, j) => fit.correlation[j]!.slice(0, names.length)),
    clockOffsetsS: offsets.map((_, k) => band(names.length + k, 's')),
    channels: residuals,
    passes,
    warnings: [
      ...predict(last.values).flatMap(({ remarks = [] }) => remarks),
      ...calibrationWarnings(fit, parameters, residuals),
    ],
    converged: first.fit.converged && fit.converged,
    modelRuns,
  };
}

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
