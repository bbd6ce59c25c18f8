import type { AlloyCard } from '../alloy';
import { isothermal, type ThermalHistory } from '../history';
import { naturalAgeing, overageingModel, type SofteningState, type SofteningTrajectory } from '../kinetics';
import { formatPercent, type Judged, judged } from '../quantity';

/** Three weeks on the shelf: by then most of what comes back at room temperature has come back, s. */
export const THREE_WEEKS_S = 21 * 86_400;

/**
 * What ageing gives back of dissolved metal, as a share of its T6 hardening; from nothing known to all of it.
 * Sources: dissolved 6061 weld metal regained 82 to 84 of the 83 HRF of T6 after 170 °C 10 h (ASME J. Manuf.
 * Sci. Eng. 143 (2021) 031003); whole 6061 welds gain only 7 to 14 MPa by ageing, because the over-aged zone
 * decides (F. Armao, common practice). The band is this kit's own.
 */
const REAGED_SHARE = { nominal: 0.9, low: 0.6, high: 1 };

/** A value with its low and its high line. */
type Lines = Pick<Judged, 'nominal' | 'low' | 'high'>;

const last = (values: Float64Array): number => values[values.length - 1]!;

/** Yield kept just after cooling, by the model's own lines. */
export function keptAtEnd(end: SofteningTrajectory): Judged {
  return judged(last(end.yieldKeptFraction), [last(end.yieldKeptLow), last(end.yieldKeptHigh)], '1', [
    'Softening model on the record as read.',
  ]);
}

/** Yield kept after a rest at room temperature: the dissolved part regains what `naturalAgeing` says. */
export function keptAfterRest(state: SofteningState, card: AlloyCard, restS = THREE_WEEKS_S): Judged {
  const gain = naturalAgeing(1, restS, card);
  const start = state.overageing.startYieldMPa;
  const soft = dissolvedStrength(state, card);
  const rested: Lines = {
    nominal: soft.nominal + gain.nominal / start,
    low: soft.low + gain.low / start,
    high: soft.high + gain.high / start,
  };
  return mixed(state, coarsened(state, card, NO_HEAT), rested, gain.because);
}

/** Yield kept after ageing again: the dissolved part regains most of the temper, the rest ages on. */
export function keptAfterReageing(state: SofteningState, card: AlloyCard, ageing: ThermalHistory): Judged {
  const soft = dissolvedStrength(state, card);
  const regained = (line: keyof Lines): number => soft[line] + REAGED_SHARE[line] * (1 - soft[line]);
  const reaged: Lines = {
    nominal: regained('nominal'),
    low: regained('low'),
    high: regained('high'),
  };
  return mixed(state, coarsened(state, card, ageing), reaged, [
    `Of what dissolved (${formatPercent(state.dissolved.nominal)} of the hardening) ageing is taken to bring back ${formatPercent(REAGED_SHARE.nominal)} (${formatPercent(REAGED_SHARE.low)} to ${formatPercent(REAGED_SHARE.high)}); the coarsened part ages on.`,
  ]);
}

/** A second at room temperature: reads the over-ageing lines where they are. */
const NO_HEAT = isothermal(20, 1);

/** What did not dissolve, on its over-ageing curve after some more heat; over the yield before welding. */
function coarsened({ overageing }: SofteningState, card: AlloyCard, heat: ThermalHistory): Lines {
  const end = overageingModel(card).advance(overageing, heat);
  return { nominal: last(end.yieldKeptFraction), low: last(end.yieldKeptLow), high: last(end.yieldKeptHigh) };
}

/** Freshly dissolved metal; never stronger than before welding. */
function dissolvedStrength({ overageing }: SofteningState, card: AlloyCard): Lines {
  const { value, low, high } = card.dissolution.floorYieldMPa;
  const share = (mpa: number): number => Math.min(1, mpa / overageing.startYieldMPa);
  return { nominal: share(value), low: share(low), high: share(high) };
}

/** (1 − X) · what coarsened + X · what dissolved; low and high with whichever end of X is worse or better. */
function mixed(
  { dissolved: x }: SofteningState,
  coarse: Lines,
  regained: Lines,
  because: readonly string[],
): Judged {
  const mix = (line: keyof Lines, part: number): number => (1 - part) * coarse[line] + part * regained[line];
  return judged(
    mix('nominal', x.nominal),
    [mix('low', x.low), mix('low', x.high), mix('high', x.low), mix('high', x.high)],
    '1',
    because,
  );
}
