import type { ResidualRow } from '../../report';
import type { Figure, Trace } from '../figure';
import { requireSome } from '../parts/requireSome';
import { baseAxis, baseLayout, LEGEND_BELOW, lineLook, plotText, QUIET_INK, TEXT_PX } from '../parts/style';

/** Unit and title of a residual figure. */
export interface ResidualOptions {
  readonly title?: string;
  /** Unit of the values. */
  readonly unit: string;
}

const ROW_PX = 26;
const MARGIN = { r: 20, t: 44, b: 50 } as const;
const LONGEST_LABEL = 34;

/**
 * Measured against model, row by row: the dot is the model's error (model − measured), the bar its band. A
 * bar that reaches the zero line holds the measured value. Throws `TemperbookError` on no row.
 */
export function residualFigure(rows: readonly ResidualRow[], options: ResidualOptions): Figure {
  requireSome(rows, 'residual');
  const names = [...new Set(rows.flatMap(({ models }) => models.map(({ name }) => name)))];
  const labels = rows.map(({ label }) =>
    label.length <= LONGEST_LABEL ? label : `${label.slice(0, LONGEST_LABEL - 1)}…`,
  );
  const legendPx = 30;
  const left = Math.max(...labels.map((label) => Math.ceil(label.length * 6.4))) + 14;
  const plotPx = Math.max(2, rows.length) * ROW_PX;
  return {
    data: names.flatMap((name, look) => modelMarks(rows, name, look, names.length, options.unit)),
    layout: {
      ...baseLayout(options.title ?? 'Model less measured', MARGIN.t + plotPx + MARGIN.b + legendPx),
      margin: { ...MARGIN, l: left, b: MARGIN.b + legendPx },
      xaxis: {
        ...baseAxis(),
        title: {
          text: plotText(`model less measured, ${options.unit}`),
          standoff: 8,
          font: { size: TEXT_PX },
        },
        range: reach(rows),
        anchor: 'y',
      },
      yaxis: {
        ...baseAxis(),
        range: [rows.length - 0.5, -0.5],
        tickvals: rows.map((_, row) => row),
        ticktext: labels.map(plotText),
        gridcolor: '#f1f2f4',
      },
      shapes: [
        {
          type: 'line',
          xref: 'x',
          yref: 'y domain',
          x0: 0,
          x1: 0,
          y0: 0,
          y1: 1,
          line: { color: QUIET_INK, width: 1.2 },
          layer: 'below',
        },
      ],
      showlegend: true,
      legend: LEGEND_BELOW,
    },
  };
}

function reach(rows: readonly ResidualRow[]): readonly [number, number] {
  const errors = rows.flatMap(({ measured, models }) =>
    models.flatMap(({ nominal, low = nominal, high = nominal }) => [low - measured, high - measured]),
  );
  const far = Math.max(...errors.map(Math.abs)) * 1.08 || 1;
  return [-far, far];
}

/** Bars and dots of one model; several models share a row side by side. */
function modelMarks(
  rows: readonly ResidualRow[],
  name: string,
  look: number,
  models: number,
  unit: string,
): Trace[] {
  const { color, symbol } = lineLook(look);
  const shift = (look - (models - 1) / 2) * Math.min(0.28, 0.8 / models);
  const held = rows.flatMap((row, place) =>
    row.models.filter((model) => model.name === name).map((model) => ({ row, model, y: place + shift })),
  );
  return [
    {
      type: 'scatter',
      mode: 'lines',
      x: held.flatMap(({ row, model }) => [
        (model.low ?? model.nominal) - row.measured,
        (model.high ?? model.nominal) - row.measured,
        null,
      ]),
      y: held.flatMap(({ y }) => [y, y, null]),
      line: { color, width: 2 },
      opacity: 0.45,
      showlegend: false,
      hoverinfo: 'skip',
    },
    {
      type: 'scatter',
      mode: 'markers',
      name: plotText(name),
      x: held.map(({ row, model }) => Number((model.nominal - row.measured).toPrecision(6))),
      y: held.map(({ y }) => y),
      marker: { symbol, size: 8, color, line: { color: '#ffffff', width: 1 } },
      text: held.map(({ row, model }) =>
        plotText(
          `${row.label}: measured ${round(row.measured)} ${unit}, ${name} ${round(model.nominal)} ${unit}`,
        ),
      ),
      hovertemplate: '%{text}<extra></extra>',
      showlegend: true,
    },
  ];
}

const round = (value: number): string => String(Number(value.toPrecision(4)));
