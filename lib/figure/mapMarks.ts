import type { Annotation, Trace } from './figure';
import { INK, plotText, TEXT_PX, VEIL } from './style';

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

/** The names beside their marks; annotations on a log axis take the logarithm as their place. */
export function markAnnotations({ points, lines }: MapMarks, firstS: number, lastS: number): Annotation[] {
  const named = [
    ...points.map(({ label, tempC, timeS }) => {
      const [from, to] = typeof timeS === 'number' ? [timeS, timeS] : timeS;
      return { label, tempC, from, to };
    }),
    ...lines.map(({ label, points: along }) => {
      const hottest = along.reduce((a, b) => (b.tempC > a.tempC ? b : a));
      return { label, tempC: hottest.tempC, from: hottest.timeS, to: hottest.timeS };
    }),
  ];
  return named.map(({ label, tempC, from, to }): Annotation => {
    const late = Math.log(to / firstS) / Math.log(lastS / firstS) > 0.72;
    return {
      text: plotText(label),
      x: Math.log10(late ? from : to),
      y: tempC,
      xref: 'x',
      yref: 'y',
      xanchor: late ? 'right' : 'left',
      yanchor: 'middle',
      xshift: late ? -8 : 8,
      showarrow: false,
      bgcolor: VEIL,
      font: { size: TEXT_PX, color: INK },
    };
  });
}
