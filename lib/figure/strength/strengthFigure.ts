import type { Verdict } from '../../decision';
import type { Figure } from '../figure';
import { assemble } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import { timeAxis, timeScale } from '../parts/timeScale';
import { type StrengthLine, strengthPanel } from './strengthPanel';

const HEIGHT_PX = 260;

/**
 * Strength kept against time with its band and the allowance line, from a verdict or from named tracks.
 * Throws `TemperbookError` when there is no line.
 */
export function strengthFigure(
  of: Verdict | readonly StrengthLine[],
  options: { readonly title?: string; readonly allowanceFraction?: number } = {},
): Figure {
  const verdict = 'channels' in of ? of : undefined;
  const lines = requireSome<StrengthLine>('channels' in of ? of.channels : of, 'strength');
  const fromS = Math.min(...lines.map(({ track }) => track.timeS[0]!));
  const toS = Math.max(...lines.map(({ track }) => track.timeS[track.timeS.length - 1]!));
  const scale = timeScale(toS - fromS);
  const panel = strengthPanel(lines, options.allowanceFraction ?? verdict?.allowanceFraction, scale, {
    axis: 'y',
    domain: [0, 1],
    heightPx: HEIGHT_PX,
    span: { fromS, toS },
  });
  return assemble(options.title ?? 'Strength kept', HEIGHT_PX, timeAxis(scale, fromS, toS, 'y'), [panel]);
}
