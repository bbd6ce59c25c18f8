import { formatDuration } from '../../quantity';
import type { VerdictWord } from '../../strength';
import type { SpikeWord } from '../../validation';
import type { Figure, MarkerSymbol, Trace } from '../figure';
import { requireSome } from '../parts/requireSome';
import { axisHeading, baseAxis, baseLayout, LEGEND_BELOW, lineLook, plotText, TEXT_PX } from '../parts/style';

const HEIGHT_PX = 520;
const MARGIN = { l: 46, r: 16, t: 66, b: 96 } as const;
/** Word by shape and by colour, so that either alone tells. */
const LOOKS: readonly { readonly word: VerdictWord; readonly symbol: MarkerSymbol; readonly look: number }[] =
  [
    { word: 'kept', symbol: 'circle-open', look: 0 },
    { word: 'uncertain', symbol: 'square', look: 1 },
    { word: 'lost', symbol: 'x-thin', look: 5 },
  ];

/** The word for every spike of a grid: peak upwards, cooling and number of passes along. */
export function spikeFigure(spikes: readonly SpikeWord[], title: string): Figure {
  const columns = [
    ...new Map(
      [...requireSome(spikes, 'spike')]
        .sort((a, b) => a.coolingTimeConstantS - b.coolingTimeConstantS || a.passes - b.passes)
        .map((spike) => [columnOf(spike), spike] as const),
    ),
  ];
  const place = new Map(columns.map(([column], at) => [column, at]));
  return {
    data: LOOKS.map(({ word, symbol, look }): Trace => {
      const { color } = lineLook(look);
      const own = spikes.filter((spike) => spike.word === word);
      return {
        type: 'scatter',
        mode: 'markers',
        name: word,
        x: own.map((spike) => place.get(columnOf(spike))!),
        y: own.map(({ peakC }) => peakC),
        marker: { symbol, size: 8, color, line: { color, width: 1.6 } },
        text: own.map(({ chanceKept, doubts }) =>
          plotText(
            `${word}, chance ${Math.round(100 * chanceKept)} %; most doubt: ${doubts[0]?.name ?? 'none'}`,
          ),
        ),
        hovertemplate: '%{y:.0f} °C: %{text}<extra></extra>',
        showlegend: true,
      };
    }),
    layout: {
      ...baseLayout(title, HEIGHT_PX),
      margin: MARGIN,
      xaxis: {
        ...baseAxis(),
        range: [-0.6, columns.length - 0.4],
        tickvals: columns.map((_, at) => at),
        ticktext: namesOf(columns.map(([, spike]) => spike)),
        title: {
          text: 'passes, and the time to cool to 37 % of the rise',
          standoff: 8,
          font: { size: TEXT_PX },
        },
        anchor: 'y',
      },
      yaxis: { ...baseAxis(), range: rangeOf(spikes.map(({ peakC }) => peakC)) },
      annotations: [axisHeading('Peak, °C', 'y domain')],
      showlegend: true,
      legend: LEGEND_BELOW,
    },
  };
}

const columnOf = ({ coolingTimeConstantS, passes }: SpikeWord): string => `${coolingTimeConstantS} ${passes}`;

/** Every column by its passes; the time they share under the middle one, so that it fits a phone. */
const namesOf = (columns: readonly SpikeWord[]): string[] =>
  columns.map(({ passes, coolingTimeConstantS }, at) => {
    const alike = columns.flatMap((other, i) =>
      other.coolingTimeConstantS === coolingTimeConstantS ? [i] : [],
    );
    const isMiddle = alike[Math.floor((alike.length - 1) / 2)] === at;
    return isMiddle ? `${passes}<br>${formatDuration(coolingTimeConstantS)}` : String(passes);
  });

const EDGE_C = 8;
const rangeOf = (peaksC: readonly number[]): readonly [number, number] => [
  Math.min(...peaksC) - EDGE_C,
  Math.max(...peaksC) + EDGE_C,
];
