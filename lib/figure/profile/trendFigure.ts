import type { VerdictWord } from '../../strength';
import type { Figure, Trace } from '../figure';
import { requireSome } from '../parts/requireSome';
import { lineLook, plotText } from '../parts/style';
import { VERDICT_SYMBOL } from '../parts/verdictSymbol';
import { type Level, lineFrame, rangeOf } from './lineFrame';

/** What came of one weld: its place in the row of welds, and a value with its band where it has one. */
export interface TrendPoint {
  /** 1 for the first weld drawn. */
  readonly weld: number;
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly verdict: VerdictWord;
  /** Which weld it was, for whoever points at it. */
  readonly label: string;
}

/** Welds of one metal, in their order. */
export interface TrendLine {
  readonly name: string;
  readonly points: readonly TrendPoint[];
}

/** What a trend shows. */
export interface TrendOptions {
  readonly title: string;
  /** With its unit; "Peak, °C" gets an axis in °F as well. */
  readonly quantity: string;
  readonly levels?: readonly Level[];
  /** Welds named under the axis, by their place. */
  readonly ticks: readonly { readonly weld: number; readonly text: string }[];
  /** Never below this, where nothing can be. */
  readonly least?: number;
}

const HEIGHT_PX = 190;

/** A quantity weld after weld, a line for each metal: circle kept, open diamond uncertain, square lost. */
export function trendFigure(lines: readonly TrendLine[], options: TrendOptions): Figure {
  const { title, quantity, levels = [], ticks, least = Number.NEGATIVE_INFINITY } = options;
  const all = requireSome(lines, 'trend').flatMap(({ points }) => points);
  const values = all.flatMap(({ value, low = value, high = value }) => [low, value, high]);
  const [lowest, highest] = rangeOf([...values, ...levels.map(({ value }) => value)], 0.1);
  const { layout, rightAxis } = lineFrame({
    title,
    heightPx: HEIGHT_PX,
    quantity,
    range: [Math.max(lowest, least), highest],
    levels,
    levelsNamedAt: 'left',
    ends: lines.map(({ name, points }) => ({ name, at: points[points.length - 1]!.value })),
    along: {
      range: [0.5, Math.max(...all.map(({ weld }) => weld)) + 0.5],
      tickvals: ticks.map(({ weld }) => weld),
      ticktext: ticks.map(({ text }) => plotText(text)),
      title: 'Welds, oldest first',
    },
  });
  return {
    data: [...lines.flatMap((line, look) => [bars(line, look), ...marks(line, look)]), ...rightAxis],
    layout,
  };
}

function bars({ points }: TrendLine, look: number): Trace {
  return {
    type: 'scatter',
    mode: 'lines',
    x: points.flatMap(({ weld }) => [weld, weld, null]),
    y: points.flatMap(({ value, low = value, high = value }) => [low, high, null]),
    line: { color: lineLook(look).color, width: 1.6 },
    opacity: 0.45,
    showlegend: false,
    hoverinfo: 'skip',
  };
}

function marks({ name, points }: TrendLine, look: number): Trace[] {
  const { color } = lineLook(look);
  return (Object.keys(VERDICT_SYMBOL) as VerdictWord[]).flatMap((word): Trace[] => {
    const said = points.filter(({ verdict }) => verdict === word);
    if (said.length === 0) return [];
    return [
      {
        type: 'scatter',
        mode: 'markers',
        name: plotText(`${name}, ${word}`),
        x: said.map(({ weld }) => weld),
        y: said.map(({ value }) => Number(value.toPrecision(6))),
        marker: { color, size: 7, symbol: VERDICT_SYMBOL[word], line: { color, width: 1.4 } },
        text: said.map(({ label }) => plotText(label)),
        hovertemplate: '%{text}<br>%{y}<extra></extra>',
        showlegend: false,
      },
    ];
  });
}
