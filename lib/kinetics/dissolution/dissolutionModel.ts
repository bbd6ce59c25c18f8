import { findTemper } from '../../alloy';
import { cumulativeEquivalentTime } from '../../exposure';
import { TemperbookError } from '../../quantity';
import { measuredStart } from '../measuredStart';
import { resolveAlloy } from '../resolveAlloy';
import type { AlloyLike, RangeRemark, StartState, TemperModel, TemperTrajectory } from '../temperModel';
import { dissolutionClock, dissolvedAfter } from './dissolvedFraction';

/** How far dissolution has come. */
export interface DissolutionState {
  readonly temper: string;
  /** Yield before the first exposure, MPa. */
  readonly startYieldMPa: number;
  /** Equivalent time on the clock of the dissolution rule, s. */
  readonly exposureS: number;
}

/** Dissolved fraction and yield just after cooling, before any natural ageing, with their bands. */
export interface DissolutionTrajectory extends TemperTrajectory<DissolutionState> {
  readonly dissolvedFraction: Float64Array;
  readonly dissolvedLow: Float64Array;
  readonly dissolvedHigh: Float64Array;
  readonly yieldKeptLow: Float64Array;
  readonly yieldKeptHigh: Float64Array;
}

const NAME = 'dissolution rule';

/**
 * Yield after a weld-like cycle when only dissolution counts: linear between the temper's yield and that of
 * the freshly dissolved state, yield = floor + (start − floor)(1 − X), X by `dissolvedFraction`; the same
 * line in hardness is the published rule. The band is that of t_r1 and of the floor on the card.
 *
 * Range: peaks of about 300 to 550 °C lasting seconds. Solute that dissolved comes back by ageing at room
 * temperature or in the furnace (`naturalAgeing`); this model itself only goes one way.
 * @throws TemperbookError as `overageingModel`, but any temper stronger than the floor will do.
 */
export function dissolutionModel(alloy: AlloyLike): TemperModel<DissolutionState, DissolutionTrajectory> {
  const card = resolveAlloy(alloy, NAME);
  const { referenceTimeS: tr1, exponent, floorYieldMPa: floor } = card.dissolution;

  const start = (from: StartState): DissolutionState => {
    if (typeof from === 'object' && 'solutionTreated' in from)
      throw new TemperbookError('The dissolution rule starts from an aged temper', {
        found: 'the solution-treated state, in which nothing is left to dissolve',
        expected: `one of ${Object.keys(card.tempers).join(', ')}`,
      });
    const { temper, measuredYieldMPa } = measuredStart(from, card);
    const { name, entry } = findTemper(card, temper);
    const startYieldMPa = measuredYieldMPa ?? entry.yieldMPa.value;
    if (startYieldMPa <= floor.value)
      throw new TemperbookError(`${card.designation}-${name} has no hardening left to dissolve`, {
        found: `a yield of ${startYieldMPa} MPa`,
        expected: `more than ${floor.value} MPa, the freshly dissolved state`,
      });
    return { temper: name, startYieldMPa, exposureS: 0 };
  };

  const advance = (state: DissolutionState, history: Parameters<typeof cumulativeEquivalentTime>[0]) => {
    const running = cumulativeEquivalentTime(history, dissolutionClock(card));
    const { timeS, tempC } = history;
    const n = timeS.length;
    const columns = {
      yieldMPa: new Float64Array(n),
      yieldKeptFraction: new Float64Array(n),
      yieldKeptLow: new Float64Array(n),
      yieldKeptHigh: new Float64Array(n),
      dissolvedFraction: new Float64Array(n),
      dissolvedLow: new Float64Array(n),
      dissolvedHigh: new Float64Array(n),
    };
    const kept = (dissolved: number, floorMPa: number): number =>
      1 - dissolved * (1 - Math.min(1, floorMPa / state.startYieldMPa));
    for (let i = 0; i < n; i++) {
      const exposureS = state.exposureS + running[i]!;
      const middle = dissolvedAfter(exposureS, tr1.value, exponent.value);
      const least = dissolvedAfter(exposureS, tr1.high, exponent.value);
      const most = dissolvedAfter(exposureS, tr1.low, exponent.value);
      columns.dissolvedFraction[i] = middle;
      columns.dissolvedLow[i] = least;
      columns.dissolvedHigh[i] = most;
      columns.yieldKeptFraction[i] = kept(middle, floor.value);
      columns.yieldKeptLow[i] = kept(most, floor.low);
      columns.yieldKeptHigh[i] = kept(least, floor.high);
      columns.yieldMPa[i] = columns.yieldKeptFraction[i]! * state.startYieldMPa;
    }
    const end: DissolutionState = { ...state, exposureS: state.exposureS + running[n - 1]! };
    return { state: end, timeS, ...columns, remarks: dissolutionRemarks(tempC, columns.dissolvedFraction) };
  };

  return { name: NAME, start, advance };
}

/** Remarks of the rule: soaks it does not see, and the dissolved part beyond which √t no longer holds. */
export function dissolutionRemarks(tempC: Float64Array, dissolved: Float64Array): RangeRemark[] {
  let peakC = tempC[0]!;
  for (const t of tempC) if (t > peakC) peakC = t;
  const x = dissolved[dissolved.length - 1]!;
  const remarks: RangeRemark[] = [];
  if (peakC < 300)
    remarks.push({
      model: NAME,
      quantity: 'temperature',
      text: 'The metal stayed below 300 °C (572 °F): there it over-ages and hardly dissolves, so this rule alone says too little.',
    });
  if (x > 0.6 && x < 1)
    remarks.push({
      model: NAME,
      quantity: 'dissolved fraction',
      text: 'More than 0.6 is dissolved: the square-root law then runs ahead of the truth and the loss is an upper estimate.',
    });
  return remarks;
}
