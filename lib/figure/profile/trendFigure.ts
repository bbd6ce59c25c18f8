import { extent } from 'simple-statistics';
import { formatTemp } from '../../quantity';
import type { VerdictWord } from '../../strength';
import type { Figure, Trace } from '../figure';
import { endLabels } from '../parts/endLabels';
import { shortName } from '../parts/naming';
import { MARGIN, textWidthPx } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import { axisHeading, baseAxis, baseLayout, levelLine, lineLook, plotText, TEXT_PX } from '../parts/style';
import { keepRightAxis, temperatureAxes } from '../parts/temperatureAxes';
import { VERDICT_SYMBOL } from '../parts/verdictSymbol';

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
  readonly levels?: readonly { readonly name: string; readonly value: number }[];
  /** Welds named under the axis, by their place. */
  readonly ticks: readonly { readonly weld: number; readonly text: string }[];
  /** Never below this, where nothing can be. */
  readonly least?: number;
}

const HEIGHT_PX = 190;
const FAHRENHEIT_PX = 32;

/** A quantity weld after weld, a line for each metal: circle kept, open diamond uncertain, square lost. */
export function trendFigure(lines: readonly TrendLine[], options: TrendOptions): Figure {
  const all = requireSome(lines, 'trend').flatMap(({ points }) => points);
  const values = all.flatMap(({ value, low = value, high = value }) => [low, value, high]);
  const levels = options.levels ?? [];
  const [lowest, highest] = extent([...values, ...levels.map(({ value }) => value)]);
  const pad = (highest - lowest || 1) * 0.1;
  const range = [Math.max(lowest - pad, options.least ?? Number.NEGATIVE_INFINITY), highest + pad] as const;
  const inCelsius = options.quantity.endsWith('°C');
  const fahrenheit = inCelsius ? temperatureAxes(...range, [0, 1]) : undefined;
  const beyondPx = fahrenheit ? FAHRENHEIT_PX : 0;
  const named = levels.map(({ name, value }) =>
    levelLine(value, inCelsius ? `${name} ${formatTemp(value)}` : name, 'y', { end: 'left', side: 'above' }),
  );
  const labels = lines.map(({ name }) => shortName(name));
  const welds = Math.max(...all.map(({ weld }) => weld));
  return {
    data: [
      ...lines.flatMap((line, look) => [bars(line, look), ...marks(line, look)]),
      ...(fahrenheit ? [keepRightAxis(1, range[0])] : []),
    ],
    layout: {
      ...baseLayout(options.title, MARGIN.t + HEIGHT_PX + MARGIN.b),
      margin: { ...MARGIN, r: Math.max(20, ...labels.map((label) => textWidthPx(label) + 22 + beyondPx)) },
      xaxis: {
        ...baseAxis(),
        range: [0.5, welds + 0.5],
        tickvals: options.ticks.map(({ weld }) => weld),
        ticktext: options.ticks.map(({ text }) => plotText(text)),
        title: { text: 'Welds, oldest first', standoff: 8, font: { size: TEXT_PX } },
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
        ...named.map(({ label }) => label),
        ...endLabels(
          lines.map(({ points }, look) => ({
            text: labels[look]!,
            look,
            at: points[points.length - 1]!.value,
          })),
          'y',
          HEIGHT_PX / (range[1] - range[0]),
          beyondPx,
        ),
      ],
      shapes: named.map(({ shape }) => shape),
    },
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
