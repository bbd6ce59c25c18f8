import { isothermal, type ThermalHistory } from '../history';
import { advanceMetal } from '../kinetics';
import { formatDuration, formatTemp, judged } from '../quantity';
import { weightedQuantiles } from '../statistics';
import type { Draws, StrengthAfter } from '../strength';
import type { ExposureBudget } from './verdict';

/** What the budget is asked for. */
export interface BudgetOptions {
  readonly limitC: number;
  readonly allowanceFraction: number;
}

/** Longest soak asked about: a budget longer than this is as good as unlimited for a weld shop. */
const LONGEST_S = 100 * 3600;
/** Draws that are asked, and how finely each is answered. */
const DRAWS = 100;
const FINE = 1.02;

/**
 * How long the metal could still be held at a limit before the allowance is used up: for every draw the soak at `limitC`
 * that brings its own yield kept down to 1 − allowance. One may count on what 95 of 100 draws still have. A repair pass
 * spends from it. Metal that is not cleared has nothing to spend until it is measured. Bisected to 2 %.
 */
export function exposureBudget(
  { draws, word }: Pick<StrengthAfter, 'draws' | 'word'>,
  { limitC, allowanceFraction }: BudgetOptions,
): ExposureBudget {
  const times = timesLeft(draws, 1 - allowanceFraction, (_, s) => isothermal(limitC, s), {
    longestS: LONGEST_S,
    fine: FINE,
  });
  const [low, nominal, high] = weightedQuantiles(times, [0.05, 0.5, 0.95]) as [number, number, number];
  const isCleared = word === 'kept';
  const timeAtLimitS = judged(nominal, [isCleared ? low : 0, high], 's', [
    `Soak at ${formatTemp(limitC)} until the allowance is used up.`,
  ]);
  return { timeAtLimitS, sentence: budgetSentence(timeAtLimitS, limitC, isCleared) };
}

/**
 * For the first hundred draws the longest s, from a second up to `longestS`, for which `heat(i, s)` leaves draw i its
 * `needed` yield: 0 where a second is too long already. Bisected to the ratio `fine`.
 */
export function timesLeft(
  { states, metals }: Pick<Draws, 'states' | 'metals'>,
  needed: number,
  heat: (draw: number, s: number) => ThermalHistory,
  { longestS, fine }: { readonly longestS: number; readonly fine: number },
): Float64Array {
  return Float64Array.from({ length: Math.min(DRAWS, states.length) }, (_, i) => {
    const holds = (s: number): boolean => {
      const { yieldKept } = advanceMetal(metals[i]!, states[i]!, heat(i, s));
      return yieldKept[yieldKept.length - 1]! >= needed;
    };
    if (!holds(1)) return 0;
    if (holds(longestS)) return longestS;
    let low = 1;
    let high = longestS;
    while (high / low > fine) {
      const middle = Math.sqrt(low * high);
      if (holds(middle)) low = middle;
      else high = middle;
    }
    return low;
  });
}

function budgetSentence(
  { nominal, low, high }: { nominal: number; low: number; high: number },
  limitC: number,
  isCleared: boolean,
): string {
  const at = `held at ${formatTemp(limitC)}`;
  if (low >= LONGEST_S)
    return `More than ${formatDuration(LONGEST_S)} ${at} are left before the allowance is used up.`;
  const say = (s: number): string =>
    s >= LONGEST_S ? `over ${formatDuration(LONGEST_S)}` : formatDuration(s);
  if (nominal === 0) return 'The allowance is used up: any more heat goes beyond it.';
  if (!isCleared)
    return `About ${say(nominal)} ${at} may be left, but this spot is not cleared: count on none until it is measured.`;
  if (low === 0)
    return `About ${say(nominal)} ${at} may be left, but the allowance may be used up already: count on none.`;
  return `About ${say(nominal)} ${at} is left before the allowance is used up; count on ${say(low)} (it may be ${say(high)}).`;
}
