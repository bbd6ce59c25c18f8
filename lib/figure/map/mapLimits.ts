import { formatTemp } from '../../quantity';
import type { Annotation, Shape } from '../figure';
import { levelLine, plotText, wrapped } from '../parts/style';
import type { FigureLimit } from '../trace/limitLines';
import { LINE_PX, type MapSheet, type Span, takePlaceAnyhow, widthOf } from './mapSheets';

/** Longest line of a name, letters: it must fit a phone. */
const LETTERS = 34;
const INSET_PX = 4;
const PLACES = [
  { end: 'left', side: 'above' },
  { end: 'left', side: 'below' },
  { end: 'right', side: 'above' },
  { end: 'right', side: 'below' },
] as const;

/** Limits within the map, each named on its line at the first end and side that are free. */
export function limitLevels(
  limits: readonly FigureLimit[],
  [lowC, highC]: Span,
  sheets: readonly MapSheet[],
): readonly { readonly shape: Shape; readonly label: Annotation }[] {
  const inside = limits.filter(({ limitC }) => limitC > lowC && limitC < highC);
  return inside.map(({ name, limitC }) => {
    // What is followed by degrees need not say that it is a temperature; and these are not broken from their unit.
    const lines = wrapped(
      `${name.replace(/ temperature$/, '')} ${formatTemp(limitC).replaceAll(' ', '\u00a0')}`,
      LETTERS,
    );
    const wide = Math.max(...lines.map(widthOf)) + INSET_PX;
    const high = lines.length * LINE_PX + 1;
    const place = takePlaceAnyhow(sheets, PLACES, ({ end, side }, { width, y }) => {
      const left = end === 'left' ? 0 : width - wide;
      const top = side === 'above' ? y(limitC) - high : y(limitC);
      return { left, right: left + wide, top, bottom: top + high };
    });
    const { shape, label } = levelLine(limitC, '', 'y', place);
    return { shape, label: { ...label, text: lines.map(plotText).join('<br>') } };
  });
}
