import { formatTemp } from '../quantity';
import type { Annotation, Axis, Figure, Shape, Trace } from './figure';
import type { FigureLimit } from './limitLines';
import { type MapLine, type MapPoint, markAnnotations, markTraces } from './mapMarks';
import { requireSome } from './requireSome';
import { baseAxis, baseLayout, INK, levelLine, TEXT_PX, VEIL } from './style';
import { temperatureAxes } from './temperatureAxes';

export interface MapOptions {
  readonly title?: string;
  /** What the time axis counts; of a soak "Time at temperature". */
  readonly timeName?: string;
  readonly limits?: readonly FigureLimit[];
  readonly points?: readonly MapPoint[];
  readonly lines?: readonly MapLine[];
  /** Loss of yield the part can live with: where the worst case reaches it a dashed line is drawn. */
  readonly allowanceFraction?: number;
}

/** Strength kept over a grid of times and temperatures. */
export interface StrengthMap {
  /** Ascending, s. */
  readonly timeS: ArrayLike<number>;
  /** Ascending, °C. */
  readonly tempC: ArrayLike<number>;
  /** One row for each temperature, one value for each time; `null` where no model answers. */
  readonly keptFraction: Grid;
  /** The worst case, on the same grid. */
  readonly keptLow?: Grid;
}

type Grid = readonly (readonly (number | null)[])[];

const HEIGHT_PX = 600;
const MARGIN = { l: 46, r: 48, t: 66, b: 66 } as const;
/** Two names of lines need this between them, px. */
const NAME_PX = 17;
/** Pale where strength is kept, rust where it is gone; greenish above the start. Dark always means loss. */
const KEPT_COLOURS = [
  [0, '#8f3d1c'],
  [0.2, '#a9562f'],
  [0.4, '#c67f50'],
  [0.6, '#dfab7d'],
  [0.75, '#efd0a8'],
  [0.909, '#fbf5e8'],
  [1, '#d7ebe2'],
] as const;
const LEVELS = { start: 0.1, end: 1.1, size: 0.1 } as const;
/** Every other time on the second row: so they never meet on a narrow screen. */
const TICKS: readonly (readonly [number, string])[] = [
  [1, '1 s'],
  [10, '10 s'],
  [60, '1 min'],
  [600, '10 min'],
  [3600, '1 h'],
  [28_800, '8 h'],
  [86_400, '<br>1 d'],
  [604_800, '1 week'],
  [2_629_800, '<br>1 month'],
  [31_557_600, '1 year'],
];

/**
 * What heat does to one alloy and temper: strength kept against how long (log) and how hot, with limit lines
 * and marked practices, in °C and °F; dashed, how far the worst case stays within the allowance. Throws
 * `TemperbookError` on an empty grid.
 */
export function mapFigure(map: StrengthMap, options: MapOptions = {}): Figure {
  const timeS = requireSome(Array.from(map.timeS), 'map');
  const tempC = requireSome(Array.from(map.tempC), 'map');
  const [lowC, highC] = [tempC[0]!, tempC[tempC.length - 1]!];
  const [firstS, lastS] = [timeS[0]!, timeS[timeS.length - 1]!];
  const axes = temperatureAxes(lowC, highC, [0, 1]);
  const limits = limitLevels(options.limits ?? [], lowC, highC);
  const marks = { points: options.points ?? [], lines: options.lines ?? [] };
  const sure = map.keptLow && sureLine(map.keptLow, timeS, tempC, 1 - (options.allowanceFraction ?? 0.1));
  return {
    data: [
      field(map.keptFraction, timeS, tempC),
      ...(sure ? [sure.trace] : []),
      ...markTraces(marks),
      // A trace of its own keeps the °F axis alive.
      {
        type: 'scatter',
        mode: 'markers',
        x: [firstS],
        y: [lowC],
        yaxis: 'y2',
        marker: { size: 0.1 },
        hoverinfo: 'skip',
        showlegend: false,
      },
    ],
    layout: {
      ...baseLayout(options.title ?? 'Strength kept after a soak', HEIGHT_PX),
      margin: MARGIN,
      xaxis: timeAxis(firstS, lastS, options.timeName ?? 'Time at temperature'),
      yaxis: axes.left,
      yaxis2: axes.right,
      annotations: [
        ...axes.headings,
        ...limits.map(({ label }) => label),
        ...(sure?.label ? [sure.label] : []),
        ...markAnnotations(marks, firstS, lastS),
      ],
      shapes: limits.map(({ shape }) => ({ ...shape, layer: 'above' as const })),
    },
  };
}

function field(kept: Grid, timeS: readonly number[], tempC: readonly number[]): Trace {
  return {
    type: 'contour',
    x: timeS,
    y: tempC,
    z: rounded(kept),
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

const rounded = (grid: Grid): Grid =>
  grid.map((row) => row.map((kept) => (kept === null ? null : Number(kept.toFixed(4)))));

/** The dashed line up to which even the worst case keeps what is needed, and its name. */
function sureLine(
  keptLow: Grid,
  timeS: readonly number[],
  tempC: readonly number[],
  needed: number,
): { readonly trace: Trace; readonly label?: Annotation } {
  const trace: Trace = {
    type: 'contour',
    x: timeS,
    y: tempC,
    z: rounded(keptLow),
    contours: { start: needed, end: needed, size: 1, coloring: 'none', showlabels: false },
    line: { color: INK, width: 2, dash: 'dash' },
    showscale: false,
    hoverinfo: 'skip',
  };
  const at = placeOnLine(keptLow, timeS, tempC, needed);
  if (!at) return { trace };
  return {
    trace,
    label: {
      text: `left of this line even<br>the worst case keeps ${Math.round(needed * 100)} %`,
      ...at,
      xref: 'x',
      yref: 'y',
      xanchor: 'right',
      yanchor: 'middle',
      xshift: -8,
      align: 'right',
      showarrow: false,
      bgcolor: VEIL,
      font: { size: TEXT_PX, color: INK },
    },
  };
}

/** Where a level is crossed in the row half-way up its line; annotations on a log axis take the logarithm. */
function placeOnLine(grid: Grid, timeS: readonly number[], tempC: readonly number[], level: number) {
  const crossings = grid.flatMap((row, i) => {
    const j = row.findIndex((kept, k) => k > 0 && kept !== null && kept < level && row[k - 1]! >= level);
    return j < 0 ? [] : [{ x: Math.log10(timeS[j]!), y: tempC[i]! }];
  });
  return crossings[Math.floor(crossings.length * 0.45)];
}

function timeAxis(firstS: number, lastS: number, name: string): Axis {
  const ticks = TICKS.filter(([s]) => s >= firstS * 0.999 && s <= lastS * 1.001);
  return {
    ...baseAxis(),
    type: 'log',
    range: [Math.log10(firstS), Math.log10(lastS)],
    tickvals: ticks.map(([s]) => s),
    ticktext: ticks.map(([, text]) => text),
    title: { text: name, standoff: 8, font: { size: TEXT_PX } },
    showgrid: false,
    anchor: 'y',
  };
}

/** Limits within the map, named above their line, or below it when the next line is too close. */
function limitLevels(
  limits: readonly FigureLimit[],
  lowC: number,
  highC: number,
): readonly { readonly shape: Shape; readonly label: Annotation }[] {
  const pxPerC = (HEIGHT_PX - MARGIN.t - MARGIN.b) / (highC - lowC);
  const inside = limits.filter(({ limitC }) => limitC > lowC && limitC < highC);
  return inside.map(({ name, limitC }) => {
    const crowded = inside.some(
      (other) => other.limitC > limitC && (other.limitC - limitC) * pxPerC < NAME_PX,
    );
    return levelLine(limitC, `${name} ${formatTemp(limitC)}`, 'y', {
      end: 'left',
      side: crowded ? 'below' : 'above',
    });
  });
}
