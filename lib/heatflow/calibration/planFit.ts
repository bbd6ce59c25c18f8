import type { PlatePlan } from '../plate';
import type { Calibration, CalibrationUnknown } from './calibration';
import type { PlanKnob, PlanKnobs } from './planKnobs';

/** An unknown of the fit that is no factor of `planWith`: where a probe really sits, another clamp. */
export interface PlanUnknown extends CalibrationUnknown {
  /** The plan with this value. */
  apply(plan: PlatePlan, value: number): PlatePlan;
}

/** How a plan is fitted to a log. */
export interface PlanFitOptions {
  /** The probe of the plan each channel is, by channel; default the probe of the channel's name. */
  readonly probeOf?: Readonly<Record<string, string>>;
  /** Fit the still air too; default true. */
  readonly film?: boolean;
  /** Fit how well the clamps take heat; default true where the plan has contacts. */
  readonly contact?: boolean;
  /** What else is not known. */
  readonly more?: Readonly<Record<string, PlanUnknown>>;
  /**
   * What is not known though nobody asks: default the metals within the bands of their cards and hand travel within
   * 15 %. [] holds the plan's numbers to be exact.
   */
  readonly nuisance?: readonly PlanKnob[];
  /** Error a step of the solver may add, K; default 0.3. */
  readonly toleranceK?: number;
  readonly readingsPerChannel?: number;
  readonly onStep?: (step: number, sumOfSquares: number) => void;
}

/** A plan fitted to a log. */
export interface PlanFit extends Calibration<string> {
  /** The plan with the fitted values, or with a draw's, its passes as far apart as the log's. */
  planFor(values?: PlanKnobs): PlatePlan;
  /** Plausible values, for `planFor`: run each and every place has a history of its own per draw. */
  draws(count: number, seed?: number): PlanKnobs[];
}
