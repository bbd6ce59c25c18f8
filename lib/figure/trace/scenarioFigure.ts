import type { StrengthTrack } from '../../strength';
import type { Figure } from '../figure';
import { requireSome } from '../parts/requireSome';
import { gapsOf } from './gapsOf';
import { stackedFigure } from './stackedFigure';
import type { TracedChannel } from './tracedChannel';
import type { TraceOptions } from './tracePanel';

/** One way the job could have run: its history, and strength kept along it when judged. */
export interface ScenarioLine extends TracedChannel {
  readonly track?: StrengthTrack;
}

/**
 * Several histories over each other against the limits, strength kept beneath where it was judged. The first
 * is the one that happened and keeps the first colour. Throws `TemperbookError` when there is none.
 */
export function scenarioFigure(
  scenarios: readonly ScenarioLine[],
  options: TraceOptions & { readonly allowanceFraction?: number } = {},
): Figure {
  const judged = requireSome(scenarios, 'scenario').flatMap(({ name, track, history }, look) =>
    track ? [{ name, track, look, gapsS: gapsOf(history) }] : [],
  );
  return stackedFigure(scenarios, judged, { title: 'What if it had run differently', ...options });
}
