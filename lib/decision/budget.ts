import { isothermal, type ThermalHistory } from '../history';
import { AT_THE_END, advanceMetal } from '../kinetics';
import { formatDuration, formatTemp, judged } from '../quantity';
import { weightedQuantiles } from '../statistics';
import type { StrengthAfter } from '../strength';
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
  strength: Pick<StrengthAfter, 'draws' | 'weights' | 'word'>,
  { limitC, allowanceFraction }: BudgetOptions,
): ExposureBudget {
  const times = timesLeft(strength, 1 - allowanceFraction, (_, s) => isothermal(limitC, s), {
    longestS: LONGEST_S,
    fine: FINE,
  });
  const [low, nominal, high] = weightedQuantiles(times, [0.05, 0.5, 0.95]) as [number, number, number];
  const isCleared = strength.word === 'kept';
  const timeAtLimitS = judged(nominal, [isCleared ? low : 0, high], 's', [
    `Soak at ${formatTemp(limitC)} until the allowance is used up.`,
  ]);
  return { timeAtLimitS, sentence: budgetSentence(timeAtLimitS, limitC, isCleared) };
}

/**
 * For a hundred draws the longest s, from a second up to `longestS`, for which `heat(i, s)` leaves draw i its `needed` yield:
 * 0 where a second is too long already. Bisected to the ratio `fine`. The draws are the first ones; where lots, sticks or
 * readings weigh them, one for every hundredth of the weight.
 */
export function timesLeft(
  { draws: { states, metals }, weights }: Pick<StrengthAfter, 'draws' | 'weights'>,
  needed: number,
  heat: (draw: number, s: number) => ThermalHistory,
  { longestS, fine }: { readonly longestS: number; readonly fine: number },
): Float64Array {
  const chosen = weights
    ? drawsByWeight(weights, DRAWS)
    : Array.from({ length: Math.min(DRAWS, states.length) }, (_, i) => i);
  return Float64Array.from(chosen, (i) => {
    const holds = (s: number): boolean => {
      const { yieldKept } = advanceMetal(metals[i]!, states[i]!, heat(i, s), AT_THE_END);
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

/** The draws in which the sum of the weights, in their order, reaches the middle of each of so many equal shares. */
function drawsByWeight(weights: Float64Array, count: number): number[] {
  const share = weights.reduce((sum, weight) => sum + weight, 0) / count;
  const chosen: number[] = [];
  let sum = 0;
  for (const [i, weight] of weights.entries()) {
    sum += weight;
    while (chosen.length < count && (chosen.length + 0.5) * share < sum) chosen.push(i);
  }
  return chosen;
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
