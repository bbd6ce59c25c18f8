import type { AlloyCard } from '../../alloy';
import { formatDuration, formatTemp, requireNumber, TemperbookError } from '../../quantity';
import { measuredStart } from '../measuredStart';
import { resolveAlloy } from '../resolveAlloy';
import type { AlloyLike, RangeRemark, StartState, TemperModel, TemperTrajectory } from '../temperModel';
import { NO_DOSE, type OverageingDose, runningDoses } from './overageingDose';
import { keptLines, type TimeFactor, temperCurve } from './overageingLines';

/** Where a part stands on its over-ageing curve. */
export interface OverageingState {
  readonly temper: string;
  /** Yield before the first exposure, MPa. */
  readonly startYieldMPa: number;
  /** Exposure since then, at the reference temperature of the alloy. */
  readonly doseS: OverageingDose;
}

/** Yield kept along a history with its band; every fraction is of the yield before the first exposure. */
export interface OverageingTrajectory extends TemperTrajectory<OverageingState> {
  readonly yieldKeptLow: Float64Array;
  readonly yieldKeptHigh: Float64Array;
  /** Accumulated equivalent time at the alloy's reference temperature, nominal activation energy, s. */
  readonly doseS: Float64Array;
}

/** What may be changed of the over-ageing model. */
export interface OverageingOptions {
  /** Time factor found on the shop's own coupons, instead of the card's. */
  readonly timeFactor?: TimeFactor;
}

/** Above this a soak dissolves particles too; see `softeningModel`. */
export const BULK_SOAK_LIMIT_C = 300;

const NAME = 'over-ageing curve';

/**
 * Yield kept after bulk heating of an aged part: a curve against Arrhenius equivalent time
 * t = ∫ exp[−(Q/R)(1/T − 1/T_ref)] dt, fitted per alloy and temper to measured exposures. The curve's formula
 * is at `hardeningLeft`, its constants with their sources on the alloy card, its fit at `fitOverageingCurve`.
 *
 * Range: soaks up to about 300 °C. Hotter, or in a weld's heat-affected zone, particles dissolve as well: use
 * `softeningModel`. What coarsening took does not come back by ageing, so nothing here ever recovers; an
 * under-aged temper (the 356 family's T6) first gains.
 *
 * The band holds the activation energy, the clock, the curve and, for a measured start, how the part came to
 * differ from the typical one; see `keptLines`. It does not hold the thermometer's error.
 * @throws TemperbookError for a bare composition, a temper without a curve, the solution-treated state, a
 * measured yield at or below the floor of the curve, or a history that breaks its promises.
 */
export function overageingModel(
  alloy: AlloyLike,
  { timeFactor }: OverageingOptions = {},
): TemperModel<OverageingState, OverageingTrajectory> {
  const card = resolveAlloy(alloy, NAME);
  if (timeFactor) checkTimeFactor(timeFactor);
  return {
    name: NAME,
    start: (from) => startOnCurve(card, from),
    advance: (state, history) => {
      const { timeS, tempC } = history;
      const doses = runningDoses(history, card.overageing);
      const lines = keptLines(card, state.temper, state.startYieldMPa, timeFactor);
      const doseAt = (i: number): OverageingDose => ({
        nominal: state.doseS.nominal + doses.nominal[i]!,
        lowEnergy: state.doseS.lowEnergy + doses.lowEnergy[i]!,
        highEnergy: state.doseS.highEnergy + doses.highEnergy[i]!,
      });
      const n = timeS.length;
      const columns = {
        yieldMPa: new Float64Array(n),
        yieldKeptFraction: new Float64Array(n),
        yieldKeptLow: new Float64Array(n),
        yieldKeptHigh: new Float64Array(n),
        doseS: new Float64Array(n),
      };
      for (let i = 0; i < n; i++) {
        const dose = doseAt(i);
        const kept = lines(dose);
        columns.doseS[i] = dose.nominal;
        columns.yieldKeptFraction[i] = kept.nominal;
        columns.yieldKeptLow[i] = kept.low;
        columns.yieldKeptHigh[i] = kept.high;
        columns.yieldMPa[i] = kept.nominal * state.startYieldMPa;
      }
      const end: OverageingState = { ...state, doseS: doseAt(n - 1) };
      return { state: end, timeS, ...columns, remarks: rangeRemarks(card, tempC, end.doseS.nominal) };
    },
  };
}

function startOnCurve(card: AlloyCard, from: StartState): OverageingState {
  if (typeof from === 'object' && 'solutionTreated' in from)
    throw new TemperbookError('The over-ageing curve starts from an aged temper', {
      found: 'the solution-treated state',
      expected: `one of ${Object.keys(card.overageing.curves).join(', ')}`,
      remedy: 'Use the ageing curve or the precipitate model for ageing from solution',
    });
  const { temper, measuredYieldMPa: measured } = measuredStart(from, card);
  const { name, entry, curve } = temperCurve(card, temper);
  if (measured === undefined) return { temper: name, startYieldMPa: entry.yieldMPa.value, doseS: NO_DOSE };
  if (measured <= curve.floorYieldMPa.value)
    throw new TemperbookError(`A yield this low is not ${card.designation}-${name}`, {
      found: `${measured} MPa`,
      expected: `more than ${curve.floorYieldMPa.value} MPa, what remains when all hardening is gone`,
      remedy: 'Check the unit (MPa), the alloy and the temper of the part',
    });
  return { temper: name, startYieldMPa: measured, doseS: NO_DOSE };
}

function checkTimeFactor({ value, low, high }: TimeFactor): void {
  requireNumber(value, 'The time factor', { low: 0.01, high: 1000 });
  requireNumber(low, 'The low end of the time factor', { low: 0.01, high: value });
  requireNumber(high, 'The high end of the time factor', { low: value, high: 1000 });
}

function rangeRemarks(card: AlloyCard, tempC: Float64Array, doseS: number): RangeRemark[] {
  const { evidence, referenceC } = card.overageing;
  let peakC = tempC[0]!;
  for (const t of tempC) if (t > peakC) peakC = t;
  const remarks: RangeRemark[] = [];
  const remark = (quantity: string, text: string): void => {
    remarks.push({ model: NAME, quantity, text });
  };
  if (peakC > BULK_SOAK_LIMIT_C)
    remark(
      'temperature',
      `The metal reached ${formatTemp(peakC)}; above ${formatTemp(BULK_SOAK_LIMIT_C)} hardening particles also dissolve, which this curve does not know: it reads too high there.`,
    );
  else if (peakC > evidence.maxC)
    remark(
      'temperature',
      `The metal reached ${formatTemp(peakC)}; the exposures its curve for ${card.designation} was fitted to end at ${formatTemp(evidence.maxC)}, hotter is extrapolated by the activation energy.`,
    );
  if (doseS > evidence.longestDoseS)
    remark(
      'exposure',
      `The exposure equals ${formatDuration(doseS)} at ${formatTemp(referenceC)}; the longest measured on ${card.designation} equals ${formatDuration(evidence.longestDoseS)}, beyond it the curve is extrapolated.`,
    );
  return remarks;
}
