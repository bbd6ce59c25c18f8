import type { Annotation, Trace } from '../figure';
import { INK, plotText, TEXT_PX, VEIL } from '../parts/style';
import {
  type Box,
  boxAround,
  LINE_PX,
  type MapSheet,
  type Span,
  takePlaceAnyhow,
  widthOf,
} from './mapSheets';

/** A practice or a job marked on a map. */
export interface MapPoint {
  readonly label: string;
  readonly tempC: number;
  /** One time, or the shortest and the longest, s. */
  readonly timeS: number | readonly [number, number];
}

/** Points that belong together, joined by a line. */
export interface MapLine {
  readonly label: string;
  readonly points: readonly { readonly timeS: number; readonly tempC: number }[];
}

interface MapMarks {
  readonly points: readonly MapPoint[];
  readonly lines: readonly MapLine[];
}

const RING = '#ffffff';

/** Bars for spans of time, dots for single times, thin lines with dots for what belongs together. */
export function markTraces({ points, lines }: MapMarks): Trace[] {
  const ends = points.map(({ timeS }) => (typeof timeS === 'number' ? [timeS, timeS] : timeS) as Span);
  const bars = (color: string, width: number): Trace => ({
    type: 'scatter',
    mode: 'lines',
    x: ends.flatMap(([from, to]) => [from, to, null]),
    y: points.flatMap(({ tempC }) => [tempC, tempC, null]),
    yaxis: 'y',
    line: { color, width },
    hoverinfo: 'skip',
    showlegend: false,
  });
  const dots: readonly Dot[] = [
    ...points.flatMap(({ label, tempC }, i) =>
      [...new Set(ends[i])].map((timeS) => ({ label, timeS, tempC })),
    ),
    ...lines.flatMap(({ label, points: along }) => along.map((at) => ({ label, ...at }))),
  ];
  if (dots.length === 0) return [];
  return [
    ...(points.length > 0 ? [bars(RING, 7), bars(INK, 4)] : []),
    ...lines.map(
      ({ points: along }): Trace => ({
        type: 'scatter',
        mode: 'lines',
        x: along.map(({ timeS }) => timeS),
        y: along.map(({ tempC }) => tempC),
        yaxis: 'y',
        line: { color: INK, width: 1.2 },
        hoverinfo: 'skip',
        showlegend: false,
      }),
    ),
    {
      type: 'scatter',
      mode: 'markers',
      x: dots.map(({ timeS }) => timeS),
      y: dots.map(({ tempC }) => tempC),
      yaxis: 'y',
      marker: { symbol: 'circle', size: 7, color: INK, line: { color: RING, width: 1.5 } },
      text: dots.map(({ label }) => plotText(label)),
      hovertemplate: '%{text}<extra></extra>',
      showlegend: false,
    },
  ];
}

interface Dot {
  readonly label: string;
  readonly timeS: number;
  readonly tempC: number;
}

/** The dots of all marks: no name may cover one. */
export function takeMarks({ points, lines }: MapMarks, sheets: readonly MapSheet[]): void {
  const dots = [
    ...points.map(({ timeS, tempC }) => ({ span: spanOf(timeS), tempC })),
    ...lines.flatMap(({ points: along }) =>
      along.map(({ timeS, tempC }) => ({ span: spanOf(timeS), tempC })),
    ),
  ];
  for (const sheet of sheets)
    sheet.taken.push(
      ...dots.map(({ span: [from, to], tempC }) =>
        boxAround(sheet.x(from) - 4, sheet.x(to) + 4, sheet.y(tempC), 8),
      ),
    );
}

const spanOf = (timeS: number | Span): Span => (typeof timeS === 'number' ? [timeS, timeS] : timeS);

const GAP_PX = 8;
const PLACES = ['right', 'left', 'above', 'below'] as const;
type Place = (typeof PLACES)[number];

/**
 * The names beside their marks: each takes the first place, right, left, above or below, that is free. Annotations on
 * a log axis take the logarithm as their place.
 */
export function markLabels(
  { points, lines }: MapMarks,
  [firstS, lastS]: Span,
  [lowC, highC]: Span,
  sheets: readonly MapSheet[],
): Annotation[] {
  const marks: readonly Mark[] = [
    ...points.map(({ label, tempC, timeS }) => {
      const [from, to] = spanOf(timeS);
      return { label, tempC, from, to };
    }),
    ...lines.map(({ label, points: along }) => {
      const hottest = along.reduce((a, b) => (b.tempC > a.tempC ? b : a));
      return { label, tempC: hottest.tempC, from: hottest.timeS, to: hottest.timeS };
    }),
  ].filter(({ from, to, tempC }) => from >= firstS && to <= lastS && tempC >= lowC && tempC <= highC);
  return marks.map((mark): Annotation => {
    const { label, tempC, from, to } = mark;
    const best = takePlaceAnyhow(sheets, PLACES, (place, sheet) => boxAt(place, mark, sheet));
    const beside = best === 'right' || best === 'left';
    return {
      text: plotText(label),
      x: Math.log10(best === 'right' ? to : from),
      y: tempC,
      xref: 'x',
      yref: 'y',
      xanchor: best === 'left' ? 'right' : 'left',
      yanchor: 'middle',
      xshift: best === 'right' ? GAP_PX : best === 'left' ? -GAP_PX : 0,
      yshift: beside ? 0 : best === 'above' ? LINE_PX : -LINE_PX,
      showarrow: false,
      bgcolor: VEIL,
      font: { size: TEXT_PX, color: INK },
    };
  });
}

interface Mark {
  readonly label: string;
  readonly tempC: number;
  readonly from: number;
  readonly to: number;
}

function boxAt(place: Place, { label, tempC, from, to }: Mark, sheet: MapSheet): Box {
  const wide = widthOf(label);
  const [x0, x1, y] = [sheet.x(from), sheet.x(to), sheet.y(tempC)];
  if (place === 'right') return boxAround(x1 + GAP_PX, x1 + GAP_PX + wide, y, LINE_PX);
  if (place === 'left') return boxAround(x0 - GAP_PX - wide, x0 - GAP_PX, y, LINE_PX);
  return boxAround(x0, x0 + wide, place === 'above' ? y - LINE_PX : y + LINE_PX, LINE_PX);
}
