import type { Judged } from '../../quantity';

/** `cannot tell` whenever the chart does not show it: less knowledge is never "met". */
export type RequirementWord = 'met' | 'not met' | 'cannot tell';

/** The part of a treatment a requirement belongs to. */
export type StageKind = 'solution' | 'quench' | 'wait' | 'age';

/** One thing the schedule asks for, and what the chart shows of it. */
export interface Requirement {
  readonly name: string;
  readonly stage: StageKind;
  readonly verdict: RequirementWord;
  /** What the chart shows, in words. */
  readonly found: string;
  /** What the schedule asks for, in words. */
  readonly wanted: string;
  /** The moment on the chart it was decided at, s; null where the chart holds no such moment. */
  readonly atS: number | null;
  /** The number behind `found`, where there is one. */
  readonly measured?: Judged;
  /** The sensor that decided it. */
  readonly sensor?: string;
  /** What must be known before anyone can tell. */
  readonly missing?: string;
}

/** The word for all of them: one broken requirement breaks the treatment, one unknown leaves it open. */
export function overallWord(requirements: readonly Requirement[]): RequirementWord {
  if (requirements.some(({ verdict }) => verdict === 'not met')) return 'not met';
  return requirements.length > 0 && requirements.every(({ verdict }) => verdict === 'met')
    ? 'met'
    : 'cannot tell';
}

/** A band a quantity is known to lie in, against the band it has to lie in. */
export function compare(
  known: { readonly low: number; readonly high: number },
  wanted: { readonly low?: number; readonly high?: number },
): RequirementWord {
  const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = wanted;
  if (known.high < low - rounding(low) || known.low > high + rounding(high)) return 'not met';
  return known.low >= low - rounding(low) && known.high <= high + rounding(high) ? 'met' : 'cannot tell';
}

/** Sums of many intervals end a hair off a round number. */
const rounding = (limit: number): number => (Number.isFinite(limit) ? 1e-9 * Math.abs(limit) + 1e-9 : 0);
