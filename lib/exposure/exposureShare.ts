import { cut, type ThermalHistory } from '../history';
import { type ArrheniusClock, equivalentTime } from './equivalentTime';

/** How an exposure divides over the passes; the numbers add up to 1, or are all 0 when there is no exposure. */
export interface ExposureShare {
  /** Share of each pass, in their order. */
  readonly perPass: readonly number[];
  /** What fell outside all passes: before the first one, in a slow preheat. */
  readonly outside: number;
}

/**
 * Share of the whole Arrhenius exposure (`equivalentTime`) that fell into each pass, start to end as
 * `findPasses` gives them (not overlapping). A share does not depend on the reference temperature.
 * @throws TemperbookError on a pass outside the history.
 */
export function exposureShare(
  history: ThermalHistory,
  passes: readonly { readonly startS: number; readonly endS: number }[],
  clock: ArrheniusClock,
): ExposureShare {
  const total = equivalentTime(history, clock);
  if (total === 0) return { perPass: passes.map(() => 0), outside: 0 };
  const perPass = passes.map(({ startS, endS }) => equivalentTime(cut(history, startS, endS), clock) / total);
  return { perPass, outside: Math.max(0, 1 - perPass.reduce((sum, share) => sum + share, 0)) };
}
