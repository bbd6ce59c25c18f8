import { type ChannelVerdict, type Verdict, worstChannel } from '../../decision';
import type { ThermalLog } from '../../log';
import type { Figure } from '../figure';
import { requireSome } from '../parts/requireSome';
import { gapsOf } from './gapsOf';
import { stackedFigure } from './stackedFigure';
import type { TracedChannel } from './tracedChannel';
import { channelsOf } from './traceFigure';
import type { TraceOptions } from './tracePanel';

/**
 * The picture of a verdict: the trace above, strength kept below, on one time axis. Limits come from the
 * channel that was judged worst, passes from the best witness, unless given. Throws `TemperbookError` when there is no channel.
 */
export function verdictFigure(
  of: ThermalLog | readonly TracedChannel[],
  verdict: Verdict,
  options: TraceOptions = {},
): Figure {
  const channels = requireSome(channelsOf(of), 'verdict');
  const worst = worstChannel(verdict.channels);
  return stackedFigure(
    channels,
    channels.flatMap(({ name, history }, look) =>
      verdict.channels
        .filter((channel) => channel.name === name && channel.track.timeS.length > 0)
        .map(({ track }) => ({ name, track, look, gapsS: gapsOf(history) })),
    ),
    {
      title: 'Temperature and strength kept',
      limits: worst?.limits ?? [],
      passes: bestWitness(verdict.channels)?.passes ?? [],
      allowanceFraction: verdict.allowanceFraction,
      ...options,
    },
  );
}

/** The channel that shows the passes best: the hottest of those that recorded nearly throughout. */
export function bestWitness<Channel extends Pick<ChannelVerdict, 'coveredS' | 'peakC'>>(
  channels: readonly Channel[],
): Channel | undefined {
  const longestS = Math.max(...channels.map(({ coveredS }) => coveredS));
  return channels
    .filter(({ coveredS }) => coveredS >= 0.95 * longestS)
    .sort((a, b) => b.peakC.nominal - a.peakC.nominal)[0];
}
