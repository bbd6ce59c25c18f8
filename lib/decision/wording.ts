import { formatDuration, formatPercent, formatTemp, type Judged } from '../quantity';
import type { ChannelVerdict, Verdict, VerdictWord } from './verdict';

/** The verdict as a welder would say it. */
export const VERDICT_IN_WORDS: Readonly<Record<VerdictWord, string>> = {
  kept: 'temper kept',
  uncertain: 'uncertain, check it',
  lost: 'temper lost',
};

/** "93 % (84–98 %)": a judged fraction with its band. */
export function formatKept({ nominal, low, high }: Judged): string {
  return `${formatPercent(nominal)} (${Math.round(low * 100)}–${formatPercent(high)})`;
}

/** The short table for a terminal: one line a channel, the answer last. */
export function verdictTable({ channels, sentence }: Verdict): string {
  const limit = channels[0]?.limits[0];
  const head = [
    'channel',
    'peak',
    limit ? `above ${formatTemp(limit.limitC)}` : 'above limit',
    'strength kept',
    'verdict',
  ];
  const rows = channels.map(({ name, peakC, limits, yieldKeptFraction, verdict }) => [
    name,
    formatTemp(peakC.nominal),
    limits[0]?.crossed ? formatDuration(limits[0].timeAboveS.nominal) : 'never',
    formatKept(yieldKeptFraction),
    VERDICT_IN_WORDS[verdict],
  ]);
  const widths = head.map((title, c) => Math.max(title.length, ...rows.map((row) => row[c]!.length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, c) => cell.padEnd(widths[c]!))
      .join('  ')
      .trimEnd();
  return [line(head), widths.map((w) => '─'.repeat(w)).join('  '), ...rows.map(line), '', sentence].join(
    '\n',
  );
}

/** One sentence for a channel: what happened to the strength and what to do about it. */
export function channelSentence(
  channel: Pick<ChannelVerdict, 'verdict' | 'yieldKeptFraction'>,
  allowanceFraction: number,
): string {
  const { nominal, low, high } = channel.yieldKeptFraction;
  const needed = formatPercent(1 - allowanceFraction);
  const change =
    nominal > 1.005
      ? `Yield has risen to about ${formatPercent(nominal)} of what it was (the casting aged further and lost some ductility)`
      : nominal > 0.995
        ? 'Yield is as good as unchanged'
        : `About ${formatPercent(nominal)} of the yield is left`;
  switch (channel.verdict) {
    case 'kept':
      return `${change}; even the worst case, ${formatPercent(low)}, stays above the ${needed} you asked for.`;
    case 'lost':
      return `${change}; even the best case, ${formatPercent(high)}, is below the ${needed} you asked for.`;
    case 'uncertain':
      return `${change}, but it may be as low as ${formatPercent(low)} or as high as ${formatPercent(high)}, and you asked for ${needed}: measure before you decide.`;
  }
}
