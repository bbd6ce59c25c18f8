import type { PlatePlan } from '../../heatflow';
import { knownOptions, requireNumber, TemperbookError } from '../../quantity';
import { KEPT_FROM } from '../../strength';
import { type ComparePlansOptions, comparePlans, RUN_OPTIONS } from './comparePlans';
import type { PlanResult } from './planResult';

/** How a plan is looked for: as `comparePlans`, with the chance that is asked for. */
export interface SearchOptions extends Omit<ComparePlansOptions, 'softZone' | 'onProgress'> {
  /** Chance of staying within the allowance, 0 to 1; default 0.95. */
  readonly confidence?: number;
  /** Longest wait worth while, s; default two hours. Of account to `smallestWait` alone. */
  readonly mostWaitS?: number;
  /** Called with every value tried and its chance; `false` stops the search. */
  readonly onTry?: (tried: Tried) => unknown;
}

/** A value that was tried. */
export interface Tried {
  readonly value: number;
  readonly chanceKept: number;
}

const OPTIONS = [
  ...RUN_OPTIONS,
  'metals',
  'confidence',
  'mostWaitS',
  'onTry',
] as const satisfies readonly (keyof SearchOptions)[];

/** The range to be searched. */
interface Search {
  planOf(value: number): PlatePlan;
  between(low: number, high: number): number;
  isClose(low: number, high: number): boolean;
  /** The end of the range with less heat. */
  readonly goodEnd: 'low' | 'high';
}

/**
 * Brackets the value between one that will do and one that will not, each tried by `comparePlans` on the same draws. None is found
 * where even the end with less heat will not do.
 * @throws TemperbookError for options it does not know, and when `onTry` says stop.
 */
export function searcher(given: SearchOptions, door: string) {
  const { confidence = KEPT_FROM, mostWaitS, onTry, ...options } = knownOptions(given, OPTIONS, door);
  requireNumber(confidence, 'confidence', { low: 0.01, high: 0.999 });
  const search = (low: number, high: number, { planOf, between, isClose, goodEnd }: Search) => {
    const tried: Tried[] = [];
    const look = (value: number): PlanResult => {
      const result = comparePlans([{ name: `with ${Number(value.toPrecision(3))}`, plan: planOf(value) }], {
        ...options,
        softZone: false,
      }).plans[0]!;
      tried.push({ value, chanceKept: result.chanceKept });
      if (onTry?.(tried.at(-1)!) === false) throw new TemperbookError('The search was stopped');
      return result;
    };
    let [good, bad] = goodEnd === 'low' ? [low, high] : [high, low];
    const easiest = look(bad);
    if (easiest.chanceKept >= confidence) return { value: bad, best: easiest, tried };
    let best = look(good);
    if (best.chanceKept < confidence) return { value: null, best, tried };
    while (!isClose(Math.min(good, bad), Math.max(good, bad))) {
      const value = between(Math.min(good, bad), Math.max(good, bad));
      const result = look(value);
      if (result.chanceKept >= confidence) [good, best] = [value, result];
      else bad = value;
    }
    return { value: good, best, tried };
  };
  return { search, confidence, ...(mostWaitS === undefined ? {} : { mostWaitS }) };
}
