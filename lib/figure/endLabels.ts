import type { Annotation } from './figure';
import { spreadLabels } from './spreadLabels';
import { lineLook, plotText, TEXT_PX, VEIL } from './style';

/** A name to be set at the end of a line. */
export interface EndLabel {
  readonly text: string;
  /** Which look the line has. */
  readonly look: number;
  /** Height of the line's end on its axis. */
  readonly at: number;
  /** Where the line stops, when that is short of the right edge. */
  readonly stopsAtX?: number;
}

const GAP_PX = 15;

/**
 * Names at the ends of lines: right of the plot, moved apart where they would meet, with a leader; beside the
 * end itself where a line stops early. `beyondPx` leaves room for the numbers of a right axis.
 */
export function endLabels(
  labels: readonly EndLabel[],
  yref: 'y' | 'y3',
  pxPerUnit: number,
  beyondPx = 0,
): Annotation[] {
  const atEdge = labels.filter(({ stopsAtX }) => stopsAtX === undefined);
  const wishes = atEdge.map(({ at }) => -at * pxPerUnit);
  const placed = spreadLabels(wishes, GAP_PX);
  return labels.map((label) => {
    const { color } = lineLook(label.look);
    const rank = atEdge.indexOf(label);
    return {
      text: plotText(label.text),
      ...(label.stopsAtX === undefined
        ? { x: 1, xref: 'paper', xshift: beyondPx, ay: Number((placed[rank]! - wishes[rank]!).toFixed(1)) }
        : { x: label.stopsAtX, xref: 'x', ay: 0, bgcolor: VEIL }),
      y: label.at,
      yref,
      xanchor: 'left',
      yanchor: 'middle',
      showarrow: true,
      arrowhead: 0,
      arrowwidth: 0.8,
      arrowcolor: color,
      ax: 12,
      font: { size: TEXT_PX, color, weight: 600 },
    };
  });
}
