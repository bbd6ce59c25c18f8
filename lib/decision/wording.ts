import { formatPercent } from '../quantity';
import type { ChannelVerdict, VerdictWord } from './verdict';

/** The verdict as a welder would say it. */
export const VERDICT_IN_WORDS: Readonly<Record<VerdictWord, string>> = {
  kept: 'temper kept',
  uncertain: 'uncertain, check it',
  lost: 'temper lost',
};

/** One sentence for a channel: what happened to the strength and what to do about it. */
export function channelSentence(
  channel: Pick<ChannelVerdict, 'verdict' | 'yieldKeptFraction'>,
  allowanceFraction: number,
): string {
  const { nominal, low, high } = channel.yieldKeptFraction;
  const digits = digitsApart(1 - allowanceFraction, channel.verdict === 'lost' ? [high] : [low, high]);
  const say = (fraction: number): string => formatPercent(fraction, digits);
  const needed = say(1 - allowanceFraction);
  const change =
    nominal > 1.005
      ? `Yield has risen to about ${formatPercent(nominal)} of what it was (the casting aged further and lost some ductility)`
      : nominal > 0.995
        ? 'Yield is as good as unchanged'
        : `About ${formatPercent(nominal)} of the yield is left`;
  switch (channel.verdict) {
    case 'kept':
      return `${change}; even the worst case, ${say(low)}, stays above the ${needed} you asked for.`;
    case 'lost':
      return `${change}; even the best case, ${say(high)}, is below the ${needed} you asked for.`;
    case 'uncertain':
      // Only what the record left out keeps such a part from being cleared.
      if (low >= 1 - allowanceFraction)
        return `${change} as far as the record goes, but it does not go far enough.`;
      return `${change}, but it may be as low as ${say(low)} or as high as ${say(high)}, and you asked for ${needed}: measure before you decide.`;
  }
}

/** Digits at which no value reads like what is needed: "90 % is below the 90 %" would be nonsense. */
function digitsApart(needed: number, values: readonly number[]): number {
  const most = 3;
  for (let digits = 0; digits < most; digits++)
    if (values.every((value) => formatPercent(value, digits) !== formatPercent(needed, digits)))
      return digits;
  return most;
}

/** One sentence for the whole log: the worst probe speaks. */
export function verdictSentence(
  verdict: VerdictWord,
  channels: readonly Pick<ChannelVerdict, 'name' | 'verdict'>[],
): string {
  const named = (word: VerdictWord): string =>
    channels
      .filter((channel) => channel.verdict === word)
      .map(({ name }) => name)
      .join(', ');
  const [lost, uncertain] = [named('lost'), named('uncertain')];
  const also = lost && uncertain ? ` Uncertain at ${uncertain}.` : '';
  switch (verdict) {
    case 'kept':
      return 'The temper held wherever a probe looked.';
    case 'lost':
      return `The temper is lost at ${lost}.${also}`;
    case 'uncertain':
      return `Nothing is shown lost, but the log cannot clear ${uncertain}: measure there before you decide.`;
  }
}
