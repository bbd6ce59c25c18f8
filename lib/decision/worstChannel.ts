import type { ChannelVerdict, VerdictWord } from './verdict';

/** Verdicts in the order in which they count. */
export const WORST_FIRST: readonly VerdictWord[] = ['lost', 'uncertain', 'kept'];

/** The channel with the worst verdict, of equals the one with the lowest low side of strength kept. */
export function worstChannel<Channel extends Pick<ChannelVerdict, 'verdict' | 'yieldKeptFraction'>>(
  channels: readonly Channel[],
): Channel | undefined {
  return [...channels].sort(
    (a, b) =>
      WORST_FIRST.indexOf(a.verdict) - WORST_FIRST.indexOf(b.verdict) ||
      a.yieldKeptFraction.low - b.yieldKeptFraction.low,
  )[0];
}
