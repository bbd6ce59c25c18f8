import type { ThermalLog } from '../../log';
import { TemperbookError } from '../../quantity';
import type { Figure } from '../figure';
import { assemble } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import { timeAxis, timeScale } from '../parts/timeScale';
import type { TracedChannel } from './tracedChannel';
import { type TraceOptions, tracePanel } from './tracePanel';

const HEIGHT_PX = 330;

/**
 * Temperature against time: every channel of a log, or any named histories. °C left and °F right (one axis
 * with two scales, in step when zoomed), limits named on their lines, faults crossed, gaps never drawn
 * across, peaks never thinned away. Throws `TemperbookError` when there is no channel.
 */
export function traceFigure(of: ThermalLog | readonly TracedChannel[], options: TraceOptions = {}): Figure {
  const channels = requireSome(channelsOf(of), 'trace');
  const span = spanOf(channels);
  const scale = timeScale(span.toS - span.fromS);
  const panel = tracePanel(channels, options, scale, span, { domain: [0, 1], heightPx: HEIGHT_PX });
  return assemble(options.title ?? 'Temperature', HEIGHT_PX, timeAxis(scale, span.fromS, span.toS, 'y'), [
    panel,
  ]);
}

/** The channels of a log, or the list itself. */
export function channelsOf(of: ThermalLog | readonly TracedChannel[]): readonly TracedChannel[] {
  return 'channels' in of ? of.channels : of;
}

/** First and last time among the histories, s. Throws `TemperbookError` when none holds a reading. */
export function spanOf(channels: readonly TracedChannel[]): { readonly fromS: number; readonly toS: number } {
  const held = channels.filter(({ history }) => history.timeS.length > 0);
  if (held.length === 0)
    throw new TemperbookError('There is no trusted reading to draw', {
      found: `${channels.length} channels without one`,
      remedy: 'The faults of each channel say why its readings were left out',
    });
  return {
    fromS: Math.min(...held.map(({ history }) => history.timeS[0]!)),
    toS: Math.max(...held.map(({ history }) => history.timeS[history.timeS.length - 1]!)),
  };
}
