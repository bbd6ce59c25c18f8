import type { SayingAnswer, SayingWord } from '../../validation';
import type { Figure, MarkerSymbol, Trace } from '../figure';
import { requireSome } from '../parts/requireSome';
import { baseAxis, baseLayout, lineLook, plotText, QUIET_INK, TEXT_PX } from '../parts/style';

const ROW_PX = 34;
const MARGIN = { l: 16, r: 16, t: 66, b: 96 } as const;
/** Word by shape and by colour, so that either alone tells. */
const LOOKS: readonly { readonly word: SayingWord; readonly symbol: MarkerSymbol; readonly look: number }[] =
  [
    { word: 'true', symbol: 'circle', look: 2 },
    { word: 'true if', symbol: 'diamond', look: 0 },
    { word: 'false', symbol: 'square', look: 1 },
  ];
const NEEDED_PCT = 90;

/** Yield left after every heat that sayings were tried on, middle and 90 % band, coloured by what the saying is worth. */
export function sayingsFigure(answers: readonly SayingAnswer[]): Figure {
  const tried = requireSome(
    answers.flatMap(({ word, tried: own }) => own.map((one) => ({ ...one, word }))),
    'saying',
  );
  const rows = tried.map((one, k) => ({ ...one, y: tried.length - 1 - k }));
  const most = 100 * Math.max(1.05, ...tried.map(({ kept }) => kept.high));
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        x: [NEEDED_PCT, NEEDED_PCT],
        y: [-0.6, tried.length - 0.4],
        line: { color: QUIET_INK, width: 1, dash: 'dash' },
        showlegend: false,
        hoverinfo: 'skip',
      },
      ...LOOKS.flatMap(({ word, symbol, look }): Trace[] => {
        const { color } = lineLook(look);
        const own = rows.filter((row) => row.word === word);
        return [
          {
            type: 'scatter',
            mode: 'lines',
            x: own.flatMap(({ kept }) => [100 * kept.low, 100 * kept.high, null]),
            y: own.flatMap(({ y }) => [y, y, null]),
            line: { color, width: 2 },
            showlegend: false,
            hoverinfo: 'skip',
          },
          {
            type: 'scatter',
            mode: 'markers',
            name: word,
            x: own.map(({ kept }) => 100 * kept.nominal),
            y: own.map(({ y }) => y),
            marker: { symbol, size: 8, color, line: { color, width: 1.2 } },
            text: own.map(({ name }) => plotText(name)),
            hovertemplate: '%{text}: %{x:.0f} %<extra></extra>',
            showlegend: true,
          },
        ];
      }),
    ],
    layout: {
      ...baseLayout('Yield left, % of what it was before', ROW_PX * tried.length + 140),
      margin: MARGIN,
      xaxis: {
        ...baseAxis(),
        range: [0, most + 5],
        title: { text: 'yield left, %', standoff: 8, font: { size: TEXT_PX } },
        anchor: 'y',
      },
      yaxis: {
        ...baseAxis(),
        range: [-0.6, tried.length - 0.2],
        tickvals: [],
        ticktext: [],
        showgrid: false,
      },
      annotations: rows.map(({ name, y }) => ({
        text: plotText(name),
        x: 0.005,
        xref: 'paper' as const,
        y: y + 0.36,
        yref: 'y' as const,
        xanchor: 'left' as const,
        yanchor: 'middle' as const,
        showarrow: false,
        font: { size: TEXT_PX, color: QUIET_INK },
      })),
      showlegend: true,
      legend: { orientation: 'h', x: 0, y: 0, xref: 'container', yref: 'container', yanchor: 'bottom' },
    },
  };
}
