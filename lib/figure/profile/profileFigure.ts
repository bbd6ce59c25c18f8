import { extent } from 'simple-statistics';
import { formatTemp } from '../../quantity';
import type { Annotation, Figure, Shape, Trace } from '../figure';
import { endLabels } from '../parts/endLabels';
import { shortName } from '../parts/naming';
import { MARGIN, textWidthPx } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import {
  axisHeading,
  baseAxis,
  baseLayout,
  INK,
  levelLine,
  lineLook,
  plotText,
  QUIET_INK,
  TEXT_PX,
  withAlpha,
} from '../parts/style';
import { keepRightAxis, temperatureAxes } from '../parts/temperatureAxes';

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
  readonly levels?: readonly { readonly name: string; readonly value: number }[];
  /** Distances marked and named: extents of a code, places of probes. */
  readonly marks?: readonly { readonly name: string; readonly distanceMm: number }[];
  readonly measured?: readonly ProfilePoint[];
}

const HEIGHT_PX = 320;
/** Width of the °F labels right of the plot: names of lines stand beyond them. */
const FAHRENHEIT_PX = 32;

/** A quantity against distance from the weld, with bands, levels, marks and measured points. */
export function profileFigure(lines: readonly ProfileLine[], options: ProfileOptions): Figure {
  requireSome(lines, 'profile');
  const measured = options.measured ?? [];
  const values = [
    ...lines.flatMap(({ nominal, low = [], high = [] }) => [
      ...Array.from(nominal),
      ...Array.from(low),
      ...Array.from(high),
    ]),
    ...measured.map(({ value }) => value),
    ...(options.levels ?? []).map(({ value }) => value),
  ];
  const [lowest, highest] = extent(values);
  const pad = (highest - lowest || 1) * 0.08;
  const range = [lowest - pad, highest + pad] as const;
  const [nearMm, farMm] = extent(lines.flatMap(({ distanceMm }) => Array.from(distanceMm)));
  const inCelsius = options.quantity.endsWith('°C');
  const levels = (options.levels ?? []).map(({ name, value }) =>
    levelLine(value, inCelsius ? `${name} ${formatTemp(value)}` : name, 'y', { end: 'right', side: 'above' }),
  );
  const fahrenheit = inCelsius ? temperatureAxes(...range, [0, 1]) : undefined;
  const beyondPx = fahrenheit ? FAHRENHEIT_PX : 0;
  const labels = lines.map(({ name }) => shortName(name));
  return {
    data: [
      ...lines.flatMap((line, look) => [...band(line, look), middle(line, look)]),
      ...(measured.length > 0 ? [points(measured)] : []),
      ...(fahrenheit ? [keepRightAxis(nearMm, range[0])] : []),
    ],
    layout: {
      ...baseLayout(options.title ?? options.quantity.split(',')[0]!, MARGIN.t + HEIGHT_PX + MARGIN.b),
      margin: { ...MARGIN, r: Math.max(20, ...labels.map((label) => textWidthPx(label) + 22 + beyondPx)) },
      xaxis: {
        ...baseAxis(),
        range: [nearMm, farMm],
        title: { text: options.along ?? 'Distance, mm', standoff: 8, font: { size: TEXT_PX } },
        showgrid: false,
        showline: true,
        linecolor: '#b9bec6',
        anchor: 'y',
      },
      yaxis: { ...baseAxis(), range },
      ...(fahrenheit ? { yaxis2: fahrenheit.right } : {}),
      annotations: [
        axisHeading(options.quantity, 'y domain'),
        ...(fahrenheit ? [axisHeading('°F', 'y domain', 'right')] : []),
        ...levels.map(({ label }) => label),
        ...(options.marks ?? []).map(markLabel),
        ...endLabels(
          lines.map(({ nominal }, look) => ({
            text: labels[look]!,
            look,
            at: nominal[nominal.length - 1]!,
          })),
          'y',
          HEIGHT_PX / (range[1] - range[0]),
          beyondPx,
        ),
      ],
      shapes: [...levels.map(({ shape }) => shape), ...(options.marks ?? []).map(markLine)],
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
  const { color, dash } = lineLook(look);
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
