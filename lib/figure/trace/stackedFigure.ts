import type { Figure } from '../figure';
import { namingOf } from '../parts/naming';
import { assemble } from '../parts/panel';
import { timeAxis, timeScale } from '../parts/timeScale';
import { type StrengthLine, strengthPanel } from '../strength/strengthPanel';
import type { TracedChannel } from './tracedChannel';
import { spanOf } from './traceFigure';
import { type TraceOptions, tracePanel } from './tracePanel';

const TRACE_PX = 300;
const GAP_PX = 44;
const STRENGTH_PX = 170;
const TOTAL_PX = TRACE_PX + GAP_PX + STRENGTH_PX;

/** Trace above, strength below, one time axis under both; the trace alone where nothing was judged. */
export function stackedFigure(
  channels: readonly TracedChannel[],
  lines: readonly StrengthLine[],
  options: TraceOptions & { readonly title: string; readonly allowanceFraction?: number },
): Figure {
  const span = spanOf(channels);
  const scale = timeScale(span.toS - span.fromS);
  if (lines.length === 0) {
    const alone = tracePanel(channels, options, scale, span, { domain: [0, 1], heightPx: TRACE_PX });
    return assemble(options.title, TRACE_PX, timeAxis(scale, span.fromS, span.toS, 'y'), [alone]);
  }
  const strengthTop = STRENGTH_PX / TOTAL_PX;
  return assemble(options.title, TOTAL_PX, timeAxis(scale, span.fromS, span.toS, 'y3'), [
    tracePanel(channels, options, scale, span, {
      domain: [1 - TRACE_PX / TOTAL_PX, 1],
      heightPx: TRACE_PX,
    }),
    strengthPanel(lines, options.allowanceFraction, scale, {
      axis: 'y3',
      domain: [0, strengthTop],
      heightPx: STRENGTH_PX,
      span,
      naming: namingOf(channels.map(({ name }) => name)),
    }),
  ]);
}
