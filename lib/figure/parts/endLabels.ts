import type { Annotation } from '../figure';
import { spreadLabels } from './spreadLabels';
import { lineLook, plotText, TEXT_PX, VEIL } from './style';

/** A name to be set at the end of a line. */
export interface EndLabel {
  readonly text: string;
  /** Which look the line has. */
  readonly look: number;
  /** Height of the line's end on its axis. */
  readonly at: number;
  /** Where the line stops, when that is short of the right edge, and on which side of the lines that go on it is named. */
  readonly stops?: { readonly atX: number; readonly side: 'above' | 'below' };
}

const GAP_PX = 15;
/** How far beside its end a line that stops early is named: others may go on there. */
const BESIDE_PX = 24;

/**
 * Names at the ends of lines: right of the plot, or above or below the end where a line stops early; those of lines
 * that end together are moved apart where they would meet, with a leader. `beyondPx` leaves room for the numbers of a right axis.
 */
export function endLabels(
  labels: readonly EndLabel[],
  yref: 'y' | 'y3',
  pxPerUnit: number,
  beyondPx = 0,
): Annotation[] {
  const shifts = shiftsApart(labels, pxPerUnit);
  return labels.map((label) => {
    const { color } = lineLook(label.look);
    const ay = Number(shifts.get(label)!.toFixed(1));
    return {
      text: plotText(label.text),
      ...(label.stops === undefined
        ? { x: 1, xref: 'paper', xshift: beyondPx }
        : { x: label.stops.atX, xref: 'x', bgcolor: VEIL }),
      ay,
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

/** How far each name is moved, px down: apart from the others of lines that end at the same place. */
function shiftsApart(labels: readonly EndLabel[], pxPerUnit: number): ReadonlyMap<EndLabel, number> {
  const shifts = new Map<EndLabel, number>();
  for (const stop of new Set(labels.map(({ stops }) => stops?.atX))) {
    const together = labels.filter(({ stops }) => stops?.atX === stop);
    const ends = together.map(({ at }) => -at * pxPerUnit);
    const wishes = together.map(({ stops }, k) => ends[k]! + besidePx(stops?.side));
    for (const [k, placed] of spreadLabels(wishes, GAP_PX).entries())
      shifts.set(together[k]!, placed - ends[k]!);
  }
  return shifts;
}

const besidePx = (side: 'above' | 'below' | undefined): number =>
  side === undefined ? 0 : side === 'above' ? -BESIDE_PX : BESIDE_PX;
