import type { Annotation, Trace } from '../figure';
import { INK, plotText, TEXT_PX, VEIL } from '../parts/style';

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

type Span = readonly [number, number];

interface Dot {
  readonly label: string;
  readonly timeS: number;
  readonly tempC: number;
}

/** What the plot measures, px. */
interface PlotSize {
  readonly width: number;
  readonly height: number;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const PX_PER_LETTER = 6.6;
const LINE_PX = 15;
const GAP_PX = 8;
const PLACES = ['right', 'left', 'above', 'below'] as const;
type Place = (typeof PLACES)[number];

/**
 * The names beside their marks: each takes the first place, right, left, above or below, that is inside the plot
 * and free at every size of it, a desk's and a phone's; failing that, at the first size. Annotations on a log axis take the logarithm as their place.
 */
export function markLabels(
  { points, lines }: MapMarks,
  [firstS, lastS]: Span,
  [lowC, highC]: Span,
  sizes: readonly PlotSize[],
): Annotation[] {
  const marks: readonly Mark[] = [
    ...points.map(({ label, tempC, timeS }) => {
      const [from, to] = typeof timeS === 'number' ? [timeS, timeS] : timeS;
      return { label, tempC, from, to };
    }),
    ...lines.map(({ label, points: along }) => {
      const hottest = along.reduce((a, b) => (b.tempC > a.tempC ? b : a));
      return { label, tempC: hottest.tempC, from: hottest.timeS, to: hottest.timeS };
    }),
  ].filter(({ from, to, tempC }) => from >= firstS && to <= lastS && tempC >= lowC && tempC <= highC);
  const plots = sizes.map((size) => {
    const toX = (s: number): number => (size.width * Math.log(s / firstS)) / Math.log(lastS / firstS);
    const toY = (c: number): number => (size.height * (highC - c)) / (highC - lowC);
    const dot = (from: number, to: number, tempC: number) =>
      around(toX(from) - 4, toX(to) + 4, toY(tempC), 8);
    const taken = [
      ...marks.map(({ from, to, tempC }) => dot(from, to, tempC)),
      ...lines.flatMap(({ points: along }) => along.map(({ timeS, tempC }) => dot(timeS, timeS, tempC))),
    ];
    const boxAt = (place: Place, { label, tempC, from, to }: Mark): Box => {
      const wide = label.length * PX_PER_LETTER;
      const [x0, x1, y] = [toX(from), toX(to), toY(tempC)];
      if (place === 'right') return around(x1 + GAP_PX, x1 + GAP_PX + wide, y, LINE_PX);
      if (place === 'left') return around(x0 - GAP_PX - wide, x0 - GAP_PX, y, LINE_PX);
      return around(x0, x0 + wide, place === 'above' ? y - LINE_PX : y + LINE_PX, LINE_PX);
    };
    const isFree = (box: Box): boolean =>
      box.left >= 0 &&
      box.right <= size.width &&
      box.top >= 0 &&
      box.bottom <= size.height &&
      !taken.some((other) => overlap(box, other));
    return { taken, boxAt, isFree };
  });
  return marks.map((mark): Annotation => {
    const { label, tempC, from, to } = mark;
    const freeIn = (of: typeof plots) =>
      PLACES.find((place) => of.every(({ boxAt, isFree }) => isFree(boxAt(place, mark))));
    const best = freeIn(plots) ?? freeIn(plots.slice(0, 1)) ?? 'right';
    for (const { taken, boxAt } of plots) taken.push(boxAt(best, mark));
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

const around = (left: number, right: number, y: number, height: number): Box => ({
  left,
  right,
  top: y - height / 2,
  bottom: y + height / 2,
});

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
