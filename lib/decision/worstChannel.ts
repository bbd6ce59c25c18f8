import { WORST_FIRST } from '../strength';
import type { ChannelVerdict } from './verdict';

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
