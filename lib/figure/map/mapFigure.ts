import type { Axis, Figure } from '../figure';
import { requireSome } from '../parts/requireSome';
import { baseAxis, baseLayout, LEGEND_BELOW, TEXT_PX } from '../parts/style';
import { keepRightAxis, temperatureAxes } from '../parts/temperatureAxes';
import type { FigureLimit } from '../trace/limitLines';
import { levelNames } from './levelNames';
import { gainLines, lossField, type MapGrid } from './mapField';
import { limitLevels } from './mapLimits';
import { type MapLine, type MapPoint, markLabels, markTraces, takeMarks } from './mapMarks';
import { mapSheets } from './mapSheets';
import { sureZone } from './sureZone';

/** What is drawn on the strength map. */
export interface MapOptions {
  readonly title?: string;
  /** What the time axis counts; of a soak "Time at temperature". */
  readonly timeName?: string;
  readonly limits?: readonly FigureLimit[];
  readonly points?: readonly MapPoint[];
  readonly lines?: readonly MapLine[];
  /** Loss of yield the part can live with, 0.1 unless given: the green zone stays within it. */
  readonly allowanceFraction?: number;
}

/** Strength kept over a grid of times and temperatures. */
export interface StrengthMap {
  /** Ascending, s. */
  readonly timeS: ArrayLike<number>;
  /** Ascending, °C. */
  readonly tempC: ArrayLike<number>;
  /** One row for each temperature, one value for each time; `null` where no model answers. */
  readonly keptFraction: MapGrid;
  /** The worst case, on the same grid. */
  readonly keptLow?: MapGrid;
}

const HEIGHT_PX = 600;
const MARGIN = { l: 46, r: 48, t: 66, b: 100 } as const;
/** Room the plot has on a desk or on paper, px, and on a phone: names are placed for both. */
const PLOT_PX = { width: 766, height: HEIGHT_PX - MARGIN.t - MARGIN.b } as const;
const PHONE_PX = { width: 264, height: PLOT_PX.height } as const;
/** Every other time on the second row: so they never meet on a narrow screen. */
const TICKS: readonly (readonly [number, string])[] = [
  [1, '1 s'],
  [10, '<br>10 s'],
  [60, '1 min'],
  [600, '<br>10 min'],
  [3600, '1 h'],
  [28_800, '8 h'],
  [86_400, '<br>1 d'],
  [604_800, '1 week'],
  [2_629_800, '<br>1 month'],
  [31_557_600, '1 year'],
];

/**
 * What heat does to one alloy and temper: strength kept against how long (log) and how hot, with limit lines
 * and marked practices, in °C and °F; in green where even the worst case stays within the allowance. Throws
 * `TemperbookError` on an empty grid.
 */
export function mapFigure(map: StrengthMap, options: MapOptions = {}): Figure {
  const timeS = requireSome(Array.from(map.timeS), 'map');
  const tempC = requireSome(Array.from(map.tempC), 'map');
  const [lowC, highC] = [tempC[0]!, tempC[tempC.length - 1]!];
  const [firstS, lastS] = [timeS[0]!, timeS[timeS.length - 1]!];
  const axes = temperatureAxes(lowC, highC, [0, 1], 12);
  const sheets = mapSheets([PLOT_PX, PHONE_PX], [firstS, lastS], [lowC, highC]);
  const marks = { points: options.points ?? [], lines: options.lines ?? [] };
  takeMarks(marks, sheets);
  const limits = limitLevels(options.limits ?? [], [lowC, highC], sheets);
  const needed = 1 - (options.allowanceFraction ?? 0.1);
  return {
    data: [
      lossField(map.keptFraction, timeS, tempC),
      ...(map.keptLow ? sureZone(map.keptLow, timeS, tempC, needed) : []),
      ...gainLines(map.keptFraction, timeS, tempC),
      ...markTraces(marks),
      keepRightAxis(firstS, lowC),
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
        ...markLabels(marks, [firstS, lastS], [lowC, highC], sheets),
        ...levelNames(map.keptFraction, timeS, tempC, sheets),
      ],
      shapes: limits.map(({ shape }) => ({ ...shape, layer: 'above' as const })),
      showlegend: true,
      legend: LEGEND_BELOW,
    },
  };
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
