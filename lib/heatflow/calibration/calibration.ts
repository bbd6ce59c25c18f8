import type { Pass } from '../../exposure';
import type { ThermalHistory } from '../../history';
import type { Judged } from '../../quantity';
import type { ChannelResidual } from './channelResidual';

/** A logged channel to fit to. */
export interface CalibrationChannel {
  readonly name: string;
  readonly history: ThermalHistory;
  /** Weight of the channel before its residuals are known, °C; default 2, a thermocouple with its logger. */
  readonly standardErrorC?: number;
}

/** One quantity of the model to be found: arc efficiency, loss coefficient, contact conductance, probe distance. */
export interface CalibrationUnknown {
  readonly start: number;
  /** Bounds of what is physically possible; the fit never leaves them and says when it rests on one. */
  readonly low: number;
  readonly high: number;
  /** What was known before, as a normal distribution; counts as one more reading. */
  readonly prior?: { readonly value: number; readonly standardError: number };
  readonly unit?: string;
  /** How sentences call it; default its key. */
  readonly label?: string;
  /** Fitted along only because it is not known for sure: that the log says little of it is no news. */
  readonly isNuisance?: boolean;
}

/** What a model predicts for one channel. */
export interface PredictedHistory extends ThermalHistory {
  /** Why the model itself would not believe it, in sentences; they become warnings of the calibration. */
  readonly remarks?: readonly string[];
}

/**
 * Any heat-flow model: values of the unknowns, and the passes found in the log, → one history per channel, in the
 * channels' order, on the model's own clock.
 */
export type HeatModel<Name extends string> = (
  values: Readonly<Record<Name, number>>,
  passes: readonly Pass[],
) => readonly PredictedHistory[];

/** What `calibrateToLog` needs besides log and model. */
export interface CalibrationOptions<Name extends string> {
  readonly parameters: Readonly<Record<Name, CalibrationUnknown>>;
  /**
   * Readings compared per channel; default 5000, for they cost no model run. Of a longer log the moving parts have
   * their share, and standard errors are less sure.
   */
  readonly readingsPerChannel?: number;
  /** The same model on finer cells, run once (see `calibrateToLog`). */
  readonly finer?: HeatModel<Name>;
  /** Called after each accepted step with the weighted sum of squares, so that a long fit shows it is alive. */
  readonly onStep?: (step: number, sumOfSquares: number) => void;
}

/** A model fitted to a log. */
export interface Calibration<Name extends string> {
  /** Fitted values; the band is two standard errors either way, cut at the bounds. */
  readonly values: Readonly<Record<Name, Judged>>;
  readonly standardErrors: Readonly<Record<Name, number>>;
  /** Row and column order of `correlation`. */
  readonly names: readonly string[];
  readonly correlation: readonly (readonly number[])[];
  /** Log time less model time for each pass, s: fitted along, so that clocks and restarts do no harm. */
  readonly clockOffsetsS: readonly Judged[];
  readonly channels: readonly ChannelResidual[];
  readonly passes: readonly Pass[];
  /** What a user must know before believing the values, in sentences; empty when there is nothing. */
  readonly warnings: readonly string[];
  readonly converged: boolean;
  /** Times the model was run. */
  readonly modelRuns: number;
}
