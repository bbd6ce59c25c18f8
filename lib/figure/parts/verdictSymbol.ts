import type { VerdictWord } from '../../strength';
import type { MarkerSymbol } from '../figure';

/** The verdict by shape, as on a record. */
export const VERDICT_SYMBOL: Readonly<Record<VerdictWord, MarkerSymbol>> = {
  kept: 'circle',
  uncertain: 'diamond-open',
  lost: 'square',
};
