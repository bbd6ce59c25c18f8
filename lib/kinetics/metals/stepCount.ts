import { ZERO_C_IN_K } from '../../quantity';
import type { RateClock } from './arrhenius';
import type { PlausibleMetal } from './plausibleMetal';

/** Colder than this nothing happens to particles, °C: a year at 60 °C is a thousandth of a second at 200 °C. */
export const COLD_C = 60;
/** Colder than this nothing dissolves, °C: at 150 °C it takes years. */
export const DISSOLVES_FROM_C = 150;

/** No step is wider than this, K: the logarithmic mean of a rate is then good to 1e-3. */
const STEP_K = 5;
/** And none this, K, where solute and particles exchange: dissolution and ageing are taken in turns on every step. */
const SOLUTE_STEP_K = 2.5;
/** Steps of no more than this in units of the ageing time while solute is ageing, and how many at most. */
const AGEING_STEP = 0.25;
const MOST_AGEING_STEPS = 128;

/** What there is of solute at the start of an interval: none, new particles alone, or some in solution. */
export type SoluteThere = 'none' | 'aged' | 'soluble';

/** Whether an interval is one step whatever there is of solute: the rule in a log, and `stepCount` need not be asked. */
export function isOneStep(rise: number, spanS: number, fastestAgeing: number): boolean {
  return rise <= SOLUTE_STEP_K && rise >= -SOLUTE_STEP_K && spanS * fastestAgeing <= AGEING_STEP;
}

/**
 * Into how many steps a straight line of temperature is cut: by its rise, and where solute ages, or may come free and age, by
 * the time as well, unless all of the way is too hot for it. Derived from what splitting a history may move, see `advanceMetal`.
 * @param fastestAgeing rate of `ageing` where it is fastest, 1/s.
 */
export function stepCount(
  { agesFastestC, noAgeingFromC }: Pick<PlausibleMetal, 'agesFastestC' | 'noAgeingFromC'>,
  ageing: RateClock,
  fastestAgeing: number,
  startC: number,
  rise: number,
  spanS: number,
  solute: SoluteThere,
): number {
  const hottest = rise > 0 ? startC + rise : startC;
  if (hottest <= COLD_C) return 1;
  const exchanges = solute !== 'none' && hottest > DISSOLVES_FROM_C;
  const steps = Math.max(1, Math.ceil(Math.abs(rise) / (exchanges ? SOLUTE_STEP_K : STEP_K)));
  const coolest = rise > 0 ? startC : startC + rise;
  if (coolest >= noAgeingFromC || (solute !== 'soluble' && hottest <= DISSOLVES_FROM_C)) return steps;
  if (spanS * fastestAgeing <= steps * AGEING_STEP) return steps;
  const agesAt = Math.min(hottest, agesFastestC) + ZERO_C_IN_K;
  const byTime = (spanS * Math.exp(ageing.atInfinity - ageing.perInverseK / agesAt)) / AGEING_STEP;
  return byTime > steps ? Math.min(Math.ceil(byTime), Math.max(steps, MOST_AGEING_STEPS)) : steps;
}
