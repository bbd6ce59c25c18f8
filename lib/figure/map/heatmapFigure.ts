import { scaleLinear } from 'd3-scale';
import { extent } from 'simple-statistics';
import { celsiusToFahrenheit, formatTemp } from '../../quantity';
import type { Annotation, Figure, Trace } from '../figure';
import { requireSome } from '../parts/requireSome';
import { axisHeading, baseLayout, INK, plotText, QUIET_INK, TEXT_PX, VEIL } from '../parts/style';
import type { FigureLimit } from '../trace/limitLines';
import { planAxes } from './planAxes';

/** Hottest each spot of the part became, plan view. */
export interface PeakMap {
  /** Ascending, mm. */
  readonly alongMm: ArrayLike<number>;
  /** Ascending, mm. */
  readonly acrossMm: ArrayLike<number>;
  /** One row for each place across, °C; `null` outside the part. */
  readonly peakC: readonly (readonly (number | null)[])[];
}

/** What is drawn on the map of peaks. */
export interface HeatmapOptions {
  readonly title?: string;
  /** Isotherms drawn and named on the plan. */
  readonly limits?: readonly FigureLimit[];
  readonly probes?: readonly { readonly name: string; readonly alongMm: number; readonly acrossMm: number }[];
  /** Path of the weld, mm. */
  readonly weld?: readonly (readonly [number, number])[];
}

/** The plot takes the part's own proportions within these bounds, px. */
const WIDTH_PX = 620;
const HEIGHT_PX = { least: 200, most: 460 } as const;
const MARGIN = { l: 46, r: 104, t: 66, b: 50 } as const;
const HEAT_COLOURS = [
  [0, '#f6f4ee'],
  [0.3, '#f0d9a8'],
  [0.55, '#df9a57'],
  [0.8, '#a8502a'],
  [1, '#4f1a10'],
] as const;

/** Peak temperature over the part seen from above, with isotherms, the weld and the probes. */
export function heatmapFigure(map: PeakMap, options: HeatmapOptions = {}): Figure {
  const x = requireSome(Array.from(map.alongMm), 'plan view');
  const y = requireSome(Array.from(map.acrossMm), 'plan view');
  const z = map.peakC.map((row) => row.map((peak) => (peak === null ? null : Number(peak.toFixed(1)))));
  const temps = z.flat().filter((peak): peak is number => peak !== null);
  const [zmin, zmax] = extent(requireSome(temps, 'temperature of the plan view'));
  const [left, right] = [x[0]!, x[x.length - 1]!];
  const [low, high] = [y[0]!, y[y.length - 1]!];
  const heightPx = Math.min(
    HEIGHT_PX.most,
    Math.max(HEIGHT_PX.least, ((high - low) / (right - left)) * WIDTH_PX),
  );
  const limits = (options.limits ?? []).filter(({ limitC }) => limitC > zmin && limitC < zmax);
  const bottomPx = MARGIN.b + 15 * limits.length;
  return {
    data: [
      {
        type: 'heatmap',
        x,
        y,
        z,
        zmin,
        zmax,
        colorscale: HEAT_COLOURS,
        zsmooth: 'best',
        showscale: true,
        colorbar: {
          thickness: 12,
          outlinewidth: 0,
          xpad: 14,
          len: 1,
          tickfont: { size: TEXT_PX },
          title: { text: '°C (°F)', side: 'top', font: { size: TEXT_PX, color: QUIET_INK } },
          ...scaleTicks(zmin, zmax),
        },
        hovertemplate: '%{z:.0f} °C at %{x:.1f}, %{y:.1f} mm<extra></extra>',
      },
      ...limits.map((limit) => isotherm(limit, x, y, z)),
      ...(options.weld ? [weldPath(options.weld)] : []),
      ...(options.probes?.length ? [probeMarks(options.probes)] : []),
    ],
    layout: {
      ...baseLayout(options.title ?? 'Peak temperature', MARGIN.t + heightPx + bottomPx),
      margin: { ...MARGIN, b: bottomPx },
      ...planAxes({ range: [left, right], title: 'Along the weld, mm' }, [low, high]),
      annotations: [
        axisHeading('Across, mm', 'y domain'),
        ...(options.probes ?? []).map((probe) => probeLabel(probe, (left + right) / 2)),
        ...(limits.length > 0 ? [limitKey(limits)] : []),
      ],
    },
  };
}

/** Round °C along the colour bar, each with its °F. */
function scaleTicks(lowC: number, highC: number): NonNullable<Trace['colorbar']> {
  const tickvals = scaleLinear().domain([lowC, highC]).ticks(6);
  return { tickvals, ticktext: tickvals.map((c) => `${c} (${Math.round(celsiusToFahrenheit(c))})`) };
}

function isotherm(
  { limitC }: FigureLimit,
  x: readonly number[],
  y: readonly number[],
  z: readonly (readonly (number | null)[])[],
): Trace {
  return {
    type: 'contour',
    x,
    y,
    z,
    showscale: false,
    autocontour: false,
    ncontours: 1,
    contours: {
      start: limitC,
      end: limitC,
      size: 1,
      coloring: 'none',
      showlabels: true,
      labelformat: '.0f',
      labelfont: { size: TEXT_PX, color: INK },
    },
    line: { color: INK, width: 1.2 },
    hoverinfo: 'skip',
  };
}

function weldPath(weld: readonly (readonly [number, number])[]): Trace {
  return {
    type: 'scatter',
    mode: 'lines',
    x: weld.map(([along]) => along),
    y: weld.map(([, across]) => across),
    line: { color: '#ffffff', width: 2, dash: 'dash' },
    showlegend: false,
    hoverinfo: 'skip',
  };
}

function probeMarks(probes: NonNullable<HeatmapOptions['probes']>): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    x: probes.map(({ alongMm }) => alongMm),
    y: probes.map(({ acrossMm }) => acrossMm),
    marker: { symbol: 'circle-open', size: 9, color: INK, line: { color: INK, width: 1.4 } },
    text: probes.map(({ name }) => plotText(name)),
    hovertemplate: '%{text}<extra></extra>',
    showlegend: false,
  };
}

/** Its name stands towards the middle of the part, where there is room on a narrow screen too. */
function probeLabel(
  { name, alongMm, acrossMm }: NonNullable<HeatmapOptions['probes']>[number],
  middleMm: number,
): Annotation {
  const toTheLeft = alongMm > middleMm;
  return {
    text: plotText(name),
    x: alongMm,
    y: acrossMm,
    xref: 'x',
    yref: 'y',
    xanchor: toTheLeft ? 'right' : 'left',
    yanchor: 'middle',
    xshift: toTheLeft ? -8 : 8,
    showarrow: false,
    bgcolor: VEIL,
    font: { size: TEXT_PX, color: INK, weight: 600 },
  };
}

/** What the drawn isotherms mean, under the plan, one line each. */
function limitKey(limits: readonly FigureLimit[]): Annotation {
  return {
    text: limits.map(({ name, limitC }) => plotText(`line: ${name}, ${formatTemp(limitC)}`)).join('<br>'),
    x: 0,
    y: 0,
    xref: 'paper',
    yref: 'y domain',
    xanchor: 'left',
    yanchor: 'top',
    yshift: -40,
    align: 'left',
    showarrow: false,
    font: { size: TEXT_PX - 1, color: INK },
  };
}
