import type { Annotation, Figure, Shape, Trace } from '../figure';
import { requireSome } from '../parts/requireSome';
import { INK, lineLook, plotText, QUIET_INK, TEXT_PX, withAlpha } from '../parts/style';
import { type Level, lineFrame, rangeOf } from './lineFrame';

/** A quantity along a line away from the weld, with its band when it has one. */
export interface ProfileLine {
  readonly name: string;
  readonly distanceMm: ArrayLike<number>;
  readonly nominal: ArrayLike<number>;
  readonly low?: ArrayLike<number>;
  readonly high?: ArrayLike<number>;
}

/** Something measured at a distance. */
export interface ProfilePoint {
  readonly distanceMm: number;
  readonly value: number;
  readonly label?: string;
}

/** What a profile shows and what is drawn on it. */
export interface ProfileOptions {
  readonly title?: string;
  /** What the vertical axis holds, with its unit. "Peak temperature, °C" gets an axis in °F as well. */
  readonly quantity: string;
  /** What the distance is from, with its unit; default 'Distance, mm'. */
  readonly along?: string;
  /** Levels drawn across and named, in the quantity's unit; a temperature is written beside the name. */
  readonly levels?: readonly Level[];
  /** Distances marked and named: extents of a code, places of probes. */
  readonly marks?: readonly { readonly name: string; readonly distanceMm: number }[];
  readonly measured?: readonly ProfilePoint[];
}

const HEIGHT_PX = 320;

/** A quantity against distance from the weld, with bands, levels, marks and measured points. */
export function profileFigure(lines: readonly ProfileLine[], options: ProfileOptions): Figure {
  requireSome(lines, 'profile');
  const {
    title = options.quantity.split(',')[0]!,
    quantity,
    levels = [],
    marks = [],
    measured = [],
  } = options;
  const values = [
    ...lines.flatMap(({ nominal, low = [], high = [] }) => [
      ...Array.from(nominal),
      ...Array.from(low),
      ...Array.from(high),
    ]),
    ...measured.map(({ value }) => value),
    ...levels.map(({ value }) => value),
  ];
  const { layout, rightAxis } = lineFrame({
    title,
    heightPx: HEIGHT_PX,
    quantity,
    range: rangeOf(values, 0.08),
    levels,
    levelsNamedAt: 'right',
    ends: lines.map(({ name, nominal }) => ({ name, at: nominal[nominal.length - 1]! })),
    along: {
      range: rangeOf(
        lines.flatMap(({ distanceMm }) => Array.from(distanceMm)),
        0,
      ),
      title: options.along ?? 'Distance, mm',
    },
  });
  return {
    data: [
      ...lines.flatMap((line, look) => [...band(line, look), middle(line, look)]),
      ...(measured.length > 0 ? [points(measured)] : []),
      ...rightAxis,
    ],
    layout: {
      ...layout,
      annotations: [...layout.annotations, ...marks.map(markLabel)],
      shapes: [...(layout.shapes ?? []), ...marks.map(markLine)],
    },
  };
}

function band({ distanceMm, low, high }: ProfileLine, look: number): Trace[] {
  if (!low || !high) return [];
  const color = lineLook(look).color;
  const edge = {
    type: 'scatter',
    mode: 'lines',
    x: Array.from(distanceMm),
    line: { color: withAlpha(color, 0), width: 0 },
    showlegend: false,
    hoverinfo: 'skip',
  } as const;
  return [
    { ...edge, y: Array.from(low) },
    { ...edge, y: Array.from(high), fill: 'tonexty', fillcolor: withAlpha(color, 0.14) },
  ];
}

function middle({ name, distanceMm, nominal }: ProfileLine, look: number): Trace {
  // Lines that meet and part again are told apart by their dashes too: not every printer has colours.
  const { color, dash } = lineLook(look, 'legend');
  return {
    type: 'scatter',
    mode: 'lines',
    name: plotText(name),
    x: Array.from(distanceMm),
    y: Array.from(nominal),
    line: { color, dash, width: 1.8 },
    showlegend: false,
    hovertemplate: `${plotText(name)}<br>%{y:.4~g} at %{x:.3~g} mm<extra></extra>`,
  };
}

function points(measured: readonly ProfilePoint[]): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    name: 'measured',
    x: measured.map(({ distanceMm }) => distanceMm),
    y: measured.map(({ value }) => value),
    marker: { symbol: 'circle-open', size: 8, color: INK, line: { color: INK, width: 1.4 } },
    text: measured.map(({ label = 'measured' }) => plotText(label)),
    hovertemplate: '%{text}<br>%{y:.4~g} at %{x:.3~g} mm<extra></extra>',
    showlegend: false,
  };
}

function markLine({ distanceMm }: { readonly distanceMm: number }): Shape {
  return {
    type: 'line',
    xref: 'x',
    yref: 'y domain',
    x0: distanceMm,
    x1: distanceMm,
    y0: 0,
    y1: 1,
    line: { color: QUIET_INK, width: 1, dash: 'dot' },
    layer: 'below',
  };
}

/** Names of neighbouring marks take turns at two heights. */
function markLabel(
  { name, distanceMm }: { readonly name: string; readonly distanceMm: number },
  rank: number,
): Annotation {
  return {
    text: plotText(name),
    x: distanceMm,
    y: 1,
    xref: 'x',
    yref: 'y domain',
    xanchor: 'left',
    yanchor: 'top',
    xshift: 4,
    yshift: 0 - 15 * (rank % 3),
    showarrow: false,
    font: { size: TEXT_PX - 1, color: QUIET_INK },
  };
}
