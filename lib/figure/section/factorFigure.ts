import { inUsUnits } from '../../quantity';
import type { FactorCurve, SizedAt } from '../../section';
import type { Annotation, Figure, Shape, Trace } from '../figure';
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
} from '../parts/style';

/** Sizes marked on the curve. */
export interface FactorMarks {
  readonly present?: SizedAt;
  readonly chosen?: SizedAt | null;
  readonly title?: string;
}

const HEIGHT_PX = 320;
/** Room the plot has on a phone held upright, px: a name left of its mark must fit there too. */
const PHONE_PLOT_PX = 288;

/** Factor against thickness with the jumps of the code, the factor asked, and the sizes that matter. */
export function factorFigure(curve: FactorCurve, { present, chosen, title }: FactorMarks = {}): Figure {
  requireSome(curve.points, 'factor');
  const { points, wanted, on, stepsMm } = curve;
  const found = points.flatMap(({ factor }) => (factor ? [factor] : []));
  const top = 1.08 * Math.max(wanted * 1.25, ...found.map(({ nominal }) => nominal));
  const fromMm = points[0]!.thicknessMm;
  const toMm = points[points.length - 1]!.thicknessMm;
  const level = levelLine(wanted, `wanted: ${wanted}`, 'y', { end: 'left', side: 'above' });
  const doubted = found.some(({ low, nominal }) => low < nominal);
  const marked = [
    ...(present?.factor ? [{ size: present, name: 'now', symbol: 'circle-open' as const }] : []),
    ...(chosen?.factor ? [{ size: chosen, name: 'chosen', symbol: 'diamond' as const }] : []),
  ];
  const slender = points.filter(({ slenderWalls }) => slenderWalls.length > 0);
  const unanswered = points.filter(({ factor }) => factor === null);
  return {
    data: [
      ...(doubted ? [line(points, 'low', 'thin')] : []),
      ...(slender.length > 0 ? [line(points, 'nominal', 'buckles')] : []),
      line(points, 'nominal', 'solid'),
      ...marked.map(({ size, name, symbol }) => mark(size, name, symbol)),
    ],
    layout: {
      ...baseLayout(title ?? `Factor on ${on} against thickness`, MARGIN.t + HEIGHT_PX + MARGIN.b),
      margin: { ...MARGIN, r: 24 },
      xaxis: {
        ...baseAxis(),
        range: [fromMm, toMm],
        title: { text: 'Thickness, mm', standoff: 8, font: { size: TEXT_PX } },
        showgrid: false,
        showline: true,
        linecolor: '#b9bec6',
        anchor: 'y',
      },
      yaxis: { ...baseAxis(), range: [0, top] },
      annotations: [
        axisHeading(`Strength over load, on ${on}`, 'y domain'),
        level.label,
        ...stepsMm.filter((mm) => jumps(points, mm)).map(stepLabel),
        ...marked.map(({ size, name }) => markLabel(size, name, fromMm, toMm)),
        ...(unanswered.length > 0 ? [silence(unanswered)] : []),
        ...(slender.length > 0 ? [bucklesNote(slender)] : []),
      ],
      shapes: [level.shape, ...stepsMm.filter((mm) => jumps(points, mm)).map(stepLine)],
    },
  };
}

const LINES = {
  solid: { name: 'factor', width: 1.8, dash: 'solid' },
  thin: { name: 'with the load at its high end', width: 1, dash: 'dot' },
  buckles: { name: 'factor if no wall buckled', width: 1.8, dash: 'dash' },
} as const;

/** The pen is lifted at a jump and where the code is silent. */
function line(points: readonly SizedAt[], end: 'nominal' | 'low', kind: keyof typeof LINES): Trace {
  const x: (number | null)[] = [];
  const y: (number | null)[] = [];
  for (const [i, { thicknessMm, factor, slenderWalls }] of points.entries()) {
    if (i > 0 && thicknessMm - points[i - 1]!.thicknessMm < 1e-5) {
      x.push(null);
      y.push(null);
    }
    x.push(thicknessMm);
    // Where a wall buckles first the factor does not hold: that stretch is drawn apart.
    const drawn = kind === 'thin' || (kind === 'buckles') === slenderWalls.length > 0;
    y.push(drawn ? (factor?.[end] ?? null) : null);
  }
  const { color } = lineLook(0);
  return {
    type: 'scatter',
    mode: 'lines',
    name: LINES[kind].name,
    x,
    y,
    line: { color, width: LINES[kind].width, dash: LINES[kind].dash, simplify: false },
    hovertemplate: `${LINES[kind].name}<br>%{y:.3~g} at %{x:.3~g} mm<extra></extra>`,
    showlegend: false,
  };
}

function mark({ thicknessMm, factor }: SizedAt, name: string, symbol: 'circle-open' | 'diamond'): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    name,
    x: [thicknessMm],
    y: [factor!.nominal],
    marker: { symbol, size: 9, color: INK, line: { color: INK, width: 1.5 } },
    hovertemplate: `${name}: %{x:.3~g} mm, factor %{y:.3~g}<extra></extra>`,
    showlegend: false,
  };
}

function markLabel({ thicknessMm, factor }: SizedAt, name: string, fromMm: number, toMm: number): Annotation {
  // A curve that rises leaves room above to the left; near its start below to the right, under the line of the doubt.
  const lines = [name, `${Number(thicknessMm.toFixed(2))} mm`, `factor ${factor!.nominal.toFixed(2)}`];
  const widthPx = Math.max(...lines.map((text) => textWidthPx(inUsUnits(text))));
  const left = (thicknessMm - fromMm) / (toMm - fromMm) > (widthPx + 9) / PHONE_PLOT_PX;
  return {
    text: lines.map(plotText).join('<br>'),
    x: thicknessMm,
    y: left ? factor!.nominal : factor!.low,
    xref: 'x',
    yref: 'y',
    xanchor: left ? 'right' : 'left',
    yanchor: left ? 'bottom' : 'top',
    align: left ? 'right' : 'left',
    xshift: left ? -9 : 9,
    showarrow: false,
    font: { size: TEXT_PX, color: INK },
  };
}

/** Whether the factor really changes at a step of the code. */
function jumps(points: readonly SizedAt[], mm: number): boolean {
  const at = points.findIndex(({ thicknessMm }) => Math.abs(thicknessMm - mm) < 1e-9);
  const [before, after] = [points[at]?.factor, points[at + 1]?.factor];
  if (!before || !after) return Boolean(before) !== Boolean(after);
  return Math.abs(after.nominal / before.nominal - 1) > 1e-3;
}

const stepLine = (mm: number): Shape => ({
  type: 'line',
  xref: 'x',
  yref: 'y domain',
  x0: mm,
  x1: mm,
  y0: 0,
  y1: 1,
  line: { color: QUIET_INK, width: 1, dash: 'dot' },
  layer: 'below',
});

const stepLabel = (mm: number): Annotation => ({
  text: plotText(`step at ${Number(mm.toFixed(2))} mm`),
  x: mm,
  y: 0,
  xref: 'x',
  yref: 'y domain',
  xanchor: 'left',
  yanchor: 'bottom',
  xshift: 4,
  yshift: 4,
  showarrow: false,
  font: { size: TEXT_PX - 1, color: QUIET_INK },
});

const bucklesNote = (slender: readonly SizedAt[]): Annotation => ({
  text: plotText(
    `dashed up to ${Number(slender[slender.length - 1]!.thicknessMm.toFixed(1))} mm: a wall buckles first`,
  ),
  x: 1,
  y: 0,
  xref: 'paper',
  yref: 'y domain',
  xanchor: 'right',
  yanchor: 'bottom',
  yshift: 22,
  showarrow: false,
  font: { size: TEXT_PX, color: QUIET_INK },
});

const silence = (unanswered: readonly SizedAt[]): Annotation => ({
  text: plotText(`no answer from ${Number(unanswered[0]!.thicknessMm.toFixed(2))} mm`),
  x: unanswered[0]!.thicknessMm,
  y: 0.5,
  xref: 'x',
  yref: 'y domain',
  xanchor: 'left',
  yanchor: 'middle',
  xshift: 6,
  showarrow: false,
  font: { size: TEXT_PX, color: QUIET_INK },
});
