import { isothermal } from '../history';
import type { SofteningState, SofteningTrajectory, TemperModel } from '../kinetics';
import { formatDuration, formatTemp, judged } from '../quantity';
import type { ExposureBudget } from './verdict';

/** What the budget is asked for. */
export interface BudgetOptions {
  readonly limitC: number;
  readonly allowanceFraction: number;
  /** Whether even the worst case of the record keeps the temper. */
  readonly isCleared: boolean;
}

/** Longest soak asked about: a budget longer than this is as good as unlimited for a weld shop. */
const LONGEST_S = 100 * 3600;

/**
 * How long the metal could still be held at a limit before the allowance is used up: the soak at `limitC` that
 * brings the yield kept down to 1 − allowance, by the low, nominal and high line of the model. A repair pass
 * spends from it. Metal that is not cleared has nothing to spend until it is measured. Bisected to 1 %.
 */
export function exposureBudget(
  model: TemperModel<SofteningState, SofteningTrajectory>,
  state: SofteningState,
  { limitC, allowanceFraction, isCleared }: BudgetOptions,
): ExposureBudget {
  const needed = 1 - allowanceFraction;
  const timeUntil = (line: (end: SofteningTrajectory) => number): number => {
    const keptAfter = (s: number): number => line(model.advance(state, isothermal(limitC, s)));
    if (keptAfter(1) < needed) return 0;
    if (keptAfter(LONGEST_S) >= needed) return LONGEST_S;
    let low = 1;
    let high = LONGEST_S;
    while (high / low > 1.01) {
      const mid = Math.sqrt(low * high);
      if (keptAfter(mid) >= needed) low = mid;
      else high = mid;
    }
    return low;
  };
  const last = (values: Float64Array): number => values[values.length - 1]!;
  const nominal = timeUntil((end) => last(end.yieldKeptFraction));
  const bounds = [
    isCleared ? timeUntil((end) => last(end.yieldKeptLow)) : 0,
    timeUntil((end) => last(end.yieldKeptHigh)),
  ];
  const timeAtLimitS = judged(nominal, bounds, 's', [
    `Soak at ${formatTemp(limitC)} until the allowance is used up, by the model that governs; probe errors of the past are not in it.`,
  ]);
  return { timeAtLimitS, sentence: budgetSentence(timeAtLimitS, limitC, isCleared) };
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
    return `About ${say(nominal)} ${at} may be left, but in the worst case the allowance is used up already: count on none.`;
  return `About ${say(nominal)} ${at} is left before the allowance is used up; count on ${say(low)} (it may be ${say(high)}).`;
}
