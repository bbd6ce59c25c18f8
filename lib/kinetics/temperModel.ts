import type { AlloyCard, MatrixWtPct } from '../alloy';
import type { ThermalHistory } from '../history';

/** What a model may be built for: a card, a designation such as 'A356.0', or a bare composition. */
export type AlloyLike = AlloyCard | string | { readonly matrixWtPct: MatrixWtPct };

/**
 * Where a history starts: a temper of the card ('T6'), the freshly quenched state, or a temper shifted to a
 * yield or, wrought metal only, a Vickers hardness measured on the actual part (`measuredStart`).
 */
export type StartState =
  | string
  | { readonly solutionTreated: true }
  | { readonly temper: string; readonly measuredYieldMPa: number }
  | { readonly temper: string; readonly measuredHardnessHV: number };

/** A model was asked something outside what it was made or checked for. Results carry these, never hide them. */
export interface RangeRemark {
  readonly model: string;
  readonly quantity: string;
  /** Plain sentence: what was asked, what the range is, what it means for the answer. */
  readonly text: string;
}

/** The state along a history. All arrays have the history's length and its times; the last element is the end. */
export interface TemperTrajectory<State> {
  readonly state: State;
  /** s, the history's own times. */
  readonly timeS: Float64Array;
  /** Room-temperature yield if the part were cooled from here at once, MPa. */
  readonly yieldMPa: Float64Array;
  /** Yield over the yield of the starting state (1 at the start of the first history). */
  readonly yieldKeptFraction: Float64Array;
  readonly remarks: readonly RangeRemark[];
}

/**
 * The one interface of every kinetic model: start somewhere, advance along any thermal history, go on from
 * the state reached. States are plain data (structured-clonable, never changed in place), so histories can be
 * joined: weld, wait, re-age.
 */
export interface TemperModel<
  State = unknown,
  Result extends TemperTrajectory<State> = TemperTrajectory<State>,
> {
  readonly name: string;
  start(from: StartState): State;
  /** Gaps of the history are left out: the state stands still across them. */
  advance(state: State, history: ThermalHistory): Result;
}
