/** `kept`: almost every plausible truth stays within the allowance; `lost`: almost none does. */
export type VerdictWord = 'kept' | 'uncertain' | 'lost';

/** Verdicts in the order in which they count. */
export const WORST_FIRST: readonly VerdictWord[] = ['lost', 'uncertain', 'kept'];

/** From this chance of staying within the allowance on, metal counts as kept. */
export const KEPT_FROM = 0.95;
/** Up to this chance, metal counts as lost. */
export const LOST_UP_TO = 0.05;

/**
 * The word that follows from a chance by the rule: kept at 95 % or more, lost at 5 % or less. A blind record never clears
 * metal, but what it does show may be lost already.
 */
export function wordOf(chanceOfRecorded: number, isBlind: boolean): VerdictWord {
  if (chanceOfRecorded <= LOST_UP_TO) return 'lost';
  return chanceOfRecorded >= KEPT_FROM && !isBlind ? 'kept' : 'uncertain';
}
