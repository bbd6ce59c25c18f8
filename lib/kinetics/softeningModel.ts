import { cumulativeEquivalentTime, equivalentTime } from '../exposure';
import { isothermal, type ThermalHistory } from '../history';
import { formatTemp } from '../quantity';
import { dissolvableFraction } from './dissolution/dissolvableFraction';
import { dissolutionClock, dissolvedAfter } from './dissolution/dissolvedFraction';
import {
  BULK_SOAK_LIMIT_C,
  type OverageingOptions,
  type OverageingState,
  overageingModel,
} from './overageing/overageingModel';
import { resolveAlloy } from './resolveAlloy';
import type { AlloyLike, RangeRemark, TemperModel, TemperTrajectory } from './temperModel';

/** Dissolved fraction: nominal, and with the fast and the slow end of the rule's time constant. */
export interface DissolvedBand {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** What heat has done at a point: how far coarsening and dissolution have come. */
export interface SofteningState {
  readonly overageing: OverageingState;
  /** Equivalent time on the clock of the dissolution rule, hotter than the curve's own soaks, s. */
  readonly dissolutionS: number;
  readonly dissolved: DissolvedBand;
}

/** Yield kept with its band, and what became of the hardening particles (the three parts add up to 1). */
export interface SofteningTrajectory extends TemperTrajectory<SofteningState> {
  readonly yieldKeptLow: Float64Array;
  readonly yieldKeptHigh: Float64Array;
  /** Solute back in solution: the only part that ageing brings back. */
  readonly dissolvedFraction: Float64Array;
  /** Hardening lost to coarsening: only a new solution treatment brings it back. */
  readonly coarsenedFraction: Float64Array;
  readonly survivingFraction: Float64Array;
}

const NAME = 'over-ageing with dissolution';

/**
 * Softening of an aged temper by any history, soak or weld cycle: the over-ageing curve and the dissolution
 * rule in one,
 *
 *   kept = (1 − X) · kept_overageing + X · σ_dissolved / σ_start.
 *
 * The dissolved part X has the strength of freshly dissolved metal; what did not dissolve has coarsened as in a
 * soak. A particle is counted once: dissolved, or coarsened, or surviving. In a soak X is nothing and the
 * over-ageing curve remains; at the hot edge of a heat-affected zone X is 1 and the curve has no say. X is the
 * iso-kinetic rule with two limits. Its clock runs at 1/t₁*(T) − 1/t₁*(T_c), never below 0, with T_c the
 * hottest soak the curve was fitted to: up to there the measured losses hold whatever dissolved. And X is never
 * more than the solvus lets dissolve at the temperature reached (`dissolvableFraction`); it stays when the
 * metal cools.
 *
 * The strength is that just after cooling. `naturalAgeing` says what the dissolved part regains.
 *
 * Band: the low line takes the lower over-ageing line with whichever end of X is worse, the high line the
 * opposite.
 * @throws TemperbookError as `overageingModel`.
 */
export function softeningModel(
  alloy: AlloyLike,
  options: OverageingOptions = {},
): TemperModel<SofteningState, SofteningTrajectory> {
  const card = resolveAlloy(alloy, NAME);
  const curve = overageingModel(card, options);
  const { referenceTimeS: tr1, exponent, floorYieldMPa: dissolvedMPa } = card.dissolution;

  const clock = dissolutionClock(card);
  const soakRate = equivalentTime(isothermal(card.overageing.evidence.maxC, 1), clock);
  const dissolutionBeyondSoaks = (history: ThermalHistory): Float64Array => {
    const running = cumulativeEquivalentTime(history, clock);
    let before = 0;
    for (let i = 1; i < running.length; i++) {
      const gained = running[i]! - before - soakRate * (history.timeS[i]! - history.timeS[i - 1]!);
      before = running[i]!;
      running[i] = running[i - 1]! + Math.max(0, gained);
    }
    return running;
  };

  const advance = (state: SofteningState, history: ThermalHistory): SofteningTrajectory => {
    const coarsening = curve.advance(state.overageing, history);
    const running = dissolutionBeyondSoaks(history);
    const { timeS, tempC } = history;
    const n = timeS.length;
    const columns = {
      yieldMPa: new Float64Array(n),
      yieldKeptFraction: new Float64Array(n),
      yieldKeptLow: new Float64Array(n),
      yieldKeptHigh: new Float64Array(n),
      dissolvedFraction: new Float64Array(n),
      coarsenedFraction: new Float64Array(n),
      survivingFraction: new Float64Array(n),
    };
    const { startYieldMPa } = state.overageing;
    const floor = card.overageing.curves[state.overageing.temper]!.floorYieldMPa.value / startYieldMPa;
    const soft = (mpa: number): number => Math.min(1, mpa / startYieldMPa);
    let { nominal: x, low: xLow, high: xHigh } = state.dissolved;
    const mix = (kept: number, mpa: number, part: number): number => (1 - part) * kept + part * soft(mpa);
    for (let i = 0; i < n; i++) {
      if (i > 0 && running[i] !== running[i - 1]) {
        const exposureS = state.dissolutionS + running[i]!;
        const ceiling = dissolvableFraction(Math.max(tempC[i - 1]!, tempC[i]!), card);
        const dissolvedBy = (t: number): number =>
          Math.min(ceiling, dissolvedAfter(exposureS, t, exponent.value));
        x = Math.max(x, dissolvedBy(tr1.value));
        xLow = Math.max(xLow, dissolvedBy(tr1.high));
        xHigh = Math.max(xHigh, dissolvedBy(tr1.low));
      }
      const keptCoarse = coarsening.yieldKeptFraction[i]!;
      const kept = mix(keptCoarse, dissolvedMPa.value, x);
      const worst = coarsening.yieldKeptLow[i]!;
      const best = coarsening.yieldKeptHigh[i]!;
      columns.yieldKeptFraction[i] = kept;
      columns.yieldKeptLow[i] = Math.min(
        kept,
        mix(worst, dissolvedMPa.low, xLow),
        mix(worst, dissolvedMPa.low, xHigh),
      );
      columns.yieldKeptHigh[i] = Math.max(
        kept,
        mix(best, dissolvedMPa.high, xLow),
        mix(best, dissolvedMPa.high, xHigh),
      );
      columns.yieldMPa[i] = kept * startYieldMPa;
      const left = Math.min(1, (keptCoarse - floor) / (1 - floor));
      columns.dissolvedFraction[i] = x;
      columns.survivingFraction[i] = (1 - x) * left;
      columns.coarsenedFraction[i] = (1 - x) * (1 - left);
    }
    return {
      state: {
        overageing: coarsening.state,
        dissolutionS: state.dissolutionS + running[n - 1]!,
        dissolved: { nominal: x, low: xLow, high: xHigh },
      },
      timeS,
      ...columns,
      remarks: remarksOf(coarsening.remarks, tempC),
    };
  };

  return {
    name: NAME,
    start: (from) => ({
      overageing: curve.start(from),
      dissolutionS: 0,
      dissolved: { nominal: 0, low: 0, high: 0 },
    }),
    advance,
  };
}

/** The curve's remarks; above bulk soaks the one on dissolution takes the place of its own on temperature. */
function remarksOf(ofCurve: readonly RangeRemark[], tempC: Float64Array): readonly RangeRemark[] {
  if (tempC.every((t) => t <= BULK_SOAK_LIMIT_C)) return ofCurve;
  return [
    ...ofCurve.filter(({ quantity }) => quantity !== 'temperature'),
    {
      model: NAME,
      quantity: 'temperature',
      text: `Above ${formatTemp(BULK_SOAK_LIMIT_C)} the answer rests on the dissolution rule, whose time constant is known within a factor of 20 only: the band is wide, measure the hardness.`,
    },
  ];
}
