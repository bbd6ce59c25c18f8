import { formatTemp } from '../quantity';
import type { Annotation, Axis, Figure, Trace } from './figure';
import type { FigureLimit } from './limitLines';
import { requireSome } from './requireSome';
import { baseAxis, baseLayout, INK, levelLine, plotText, TEXT_PX, VEIL } from './style';
import { temperatureAxes } from './temperatureAxes';

/** A practice or a job marked on the map. */
export interface MapPoint {
  readonly label: string;
  readonly timeS: number;
  readonly tempC: number;
}

export interface MapOptions {
  readonly title?: string;
  readonly limits?: readonly FigureLimit[];
  readonly points?: readonly MapPoint[];
}

/** Strength kept over a grid of soaks. */
export interface StrengthMap {
  /** Ascending, s. */
  readonly timeS: ArrayLike<number>;
  /** Ascending, °C. */
  readonly tempC: ArrayLike<number>;
  /** One row for each temperature, one value for each time; `null` where no model answers. */
  readonly keptFraction: readonly (readonly (number | null)[])[];
}

const HEIGHT_PX = 560;
const MARGIN = { l: 46, r: 48, t: 66, b: 66 } as const;
/** Pale where strength is kept, rust where it is gone; greenish above the start. Dark always means loss. */
const KEPT_COLOURS = [
  [0, '#a4512a'],
  [0.3, '#c97b4a'],
  [0.55, '#e0aa7a'],
  [0.75, '#f0d0a7'],
  [0.909, '#fbf4e6'],
  [1, '#dcebe4'],
] as const;
const LEVELS = { start: 0.1, end: 1.1, size: 0.1 } as const;
/** Shop times on the first row, calendar times on the second: so they never meet on a narrow screen. */
const TICKS: readonly (readonly [number, string])[] = [
  [1, '1 s'],
  [60, '1 min'],
  [600, '10 min'],
  [3600, '1 h'],
  [36_000, '10 h'],
  [86_400, '<br>1 d'],
  [360_000, '100 h'],
  [604_800, '<br>1 wk'],
  [2_592_000, '<br>1 mo'],
  [3_600_000, '1000 h'],
  [31_557_600, '<br>1 yr'],
];

/**
 * What heat does to one alloy and temper: strength kept against how long (log) and how hot, with limit lines
 * and marked practices, in °C and °F. Throws `TemperbookError` on an empty grid.
 */
export function mapFigure(map: StrengthMap, options: MapOptions = {}): Figure {
  const timeS = requireSome(Array.from(map.timeS), 'map');
  const tempC = requireSome(Array.from(map.tempC), 'map');
  const [lowC, highC] = [tempC[0]!, tempC[tempC.length - 1]!];
  const [firstS, lastS] = [timeS[0]!, timeS[timeS.length - 1]!];
  const axes = temperatureAxes(lowC, highC, [0, 1]);
  const lines = (options.limits ?? [])
    .filter(({ limitC }) => limitC > lowC && limitC < highC)
    .map(({ name, limitC }) =>
      levelLine(limitC, `${name} ${formatTemp(limitC)}`, 'y', { end: 'left', side: 'above' }),
    );
  const points = options.points ?? [];
  return {
    data: [
      field(map, timeS, tempC),
      ...(points.length > 0 ? [marks(points)] : []),
      { ...marks([]), x: [firstS], y: [lowC], yaxis: 'y2', hoverinfo: 'skip', marker: { size: 0.1 } },
    ],
    layout: {
      ...baseLayout(options.title ?? 'Strength kept after a soak', HEIGHT_PX),
      margin: MARGIN,
      xaxis: soakAxis(firstS, lastS),
      yaxis: axes.left,
      yaxis2: axes.right,
      annotations: [
        ...axes.headings,
        ...lines.map(({ label }) => label),
        ...points.map((point) => pointLabel(point, firstS, lastS)),
      ],
      shapes: lines.map(({ shape }) => ({ ...shape, layer: 'above' as const })),
    },
  };
}

function field(map: StrengthMap, timeS: readonly number[], tempC: readonly number[]): Trace {
  return {
    type: 'contour',
    x: timeS,
    y: tempC,
    z: map.keptFraction.map((row) => row.map((kept) => (kept === null ? null : Number(kept.toFixed(4))))),
    colorscale: KEPT_COLOURS,
    showscale: false,
    contours: {
      ...LEVELS,
      coloring: 'fill',
      showlabels: true,
      labelformat: '.0%',
      labelfont: { size: TEXT_PX, color: INK },
    },
    line: { color: '#4a2a1c', width: 0.7 },
    hovertemplate: '%{y:.0f} °C for %{x:.3~g} s: %{z:.0%} kept<extra></extra>',
  };
}

function soakAxis(firstS: number, lastS: number): Axis {
  const ticks = TICKS.filter(([s]) => s >= firstS * 0.999 && s <= lastS * 1.001);
  return {
    ...baseAxis(),
    type: 'log',
    range: [Math.log10(firstS), Math.log10(lastS)],
    tickvals: ticks.map(([s]) => s),
    ticktext: ticks.map(([, text]) => text),
    title: { text: 'Time at temperature', standoff: 8, font: { size: TEXT_PX } },
    showgrid: false,
    anchor: 'y',
  };
}

function marks(points: readonly MapPoint[]): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    x: points.map(({ timeS }) => timeS),
    y: points.map(({ tempC }) => tempC),
    yaxis: 'y',
    marker: { symbol: 'circle', size: 8, color: INK, line: { color: '#ffffff', width: 1.5 } },
    text: points.map(({ label }) => plotText(label)),
    hovertemplate: '%{text}<extra></extra>',
    showlegend: false,
  };
}

/** Annotations on a log axis take the logarithm as their place. */
function pointLabel({ label, timeS, tempC }: MapPoint, firstS: number, lastS: number): Annotation {
  const late = Math.log(timeS / firstS) / Math.log(lastS / firstS) > 0.65;
  return {
    text: plotText(label),
    x: Math.log10(timeS),
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
}
