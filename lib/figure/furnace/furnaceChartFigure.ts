import type { ChartCheck, NamedStage, Requirement, RequirementWord } from '../../heattreat';
import type { Annotation, Figure, Shape, Trace } from '../figure';
import { assemble, textWidthPx } from '../parts/panel';
import { INK, lineLook, plotText, QUIET_INK, TEXT_PX, VEIL, withAlpha, wrapped } from '../parts/style';
import { type TimeScale, timeAxis, timeScale } from '../parts/timeScale';
import type { TracedChannel } from '../trace/tracedChannel';
import { spanOf } from '../trace/traceFigure';
import { tracePanel } from '../trace/tracePanel';

const TRACE_PX = 320;
/** Room for the time axis between the traces and the list. */
const AXIS_PX = 62;
const ROW_PX = 18;
/** Width of the plot on a phone, px: what fits there fits a desk. */
const PHONE_PLOT_PX = 270;
/** Longest line of the list, which must fit a phone, and the lines one requirement may take. */
const LINE_LETTERS = 46;
const MOST_LINES = 3;
const SIGNS: Readonly<Record<RequirementWord, string>> = { met: '✓', 'not met': '✗', 'cannot tell': '?' };

/**
 * A furnace chart with its schedule: the bands shaded where their stages lie, the stages named with the load sensor
 * that did worst in each, and under the time axis the requirements, numbered as their moments are marked on the
 * chart: ✓ met, ✗ not met, ? cannot tell. Throws `TemperbookError` when no sensor holds a reading.
 */
export function furnaceChartFigure(check: ChartCheck, title?: string): Figure {
  const channels: TracedChannel[] = check.sensors.filter(({ role }) => role !== 'left out');
  const span = spanOf(channels);
  const scale = timeScale(span.toS - span.fromS);
  const list = check.requirements.map(requirementLines);
  const listPx = AXIS_PX + list.flat().length * ROW_PX;
  const totalPx = TRACE_PX + listPx;
  const domain = [listPx / totalPx, 1] as const;
  const panel = tracePanel(channels, {}, scale, span, { domain, heightPx: TRACE_PX });
  const worst = new Set(check.stages.flatMap(({ worstSensor }) => worstSensor ?? []));
  const marks = momentMarks(check.requirements, scale, span);
  return assemble(
    title ?? `${check.schedule.name}: ${check.verdict}`,
    totalPx,
    timeAxis(scale, span.fromS, span.toS, 'y'),
    [
      {
        ...panel,
        data: panel.data.map((trace) => emphasised(trace, worst)),
        shapes: [...bands(check, scale), ...marks.shapes, ...panel.shapes],
        annotations: [
          ...panel.annotations,
          ...stageNames(check.stages, scale, span),
          ...marks.annotations,
          ...requirementList(check.requirements, list, totalPx),
        ],
      },
    ],
  );
}

/** The worst sensor's line is drawn bolder. */
function emphasised(trace: Trace, worst: ReadonlySet<string>): Trace {
  const isWorst = [...worst].some(
    (name) => trace.name === plotText(name) || trace.name?.startsWith(`${plotText(name)}, `),
  );
  return isWorst && trace.mode === 'lines' ? { ...trace, line: { ...trace.line, width: 2.6 } } : trace;
}

function bands({ schedule: { solution, ages }, stages }: ChartCheck, scale: TimeScale): Shape[] {
  const steps = stages.filter(({ kind }) => kind === 'age');
  const held = [
    ...(solution
      ? stages.filter(({ kind }) => kind === 'solution').map((stage) => ({ stage, hold: solution }))
      : []),
    ...steps.flatMap((stage) => {
      const step = /step (\d+)$/.exec(stage.name)?.[1];
      const hold = ages[step === undefined ? 0 : Number(step) - 1];
      return hold ? [{ stage, hold }] : [];
    }),
  ];
  return held.map(({ stage: { fromS, toS }, hold: { lowC, highC } }) => ({
    type: 'rect',
    xref: 'x',
    yref: 'y',
    x0: fromS / scale.secondsPerUnit,
    x1: toS / scale.secondsPerUnit,
    y0: lowC,
    y1: highC,
    fillcolor: withAlpha(lineLook(2).color, 0.28),
    line: { width: 0 },
    layer: 'below',
  }));
}

type Times = { readonly fromS: number; readonly toS: number };

/** Stages whose name finds no room are named on the list only; those that a sensor did worst in come first. */
function stageNames(stages: readonly NamedStage[], scale: TimeScale, { fromS, toS }: Times): Annotation[] {
  const pxPerS = PHONE_PLOT_PX / (toS - fromS || 1);
  const taken: { from: number; to: number }[] = [];
  const rank = ({ worstSensor }: NamedStage): number => (worstSensor === undefined ? 1 : 0);
  return [...stages]
    .sort((a, b) => rank(a) - rank(b))
    .flatMap((stage) => {
      const middleS = (stage.fromS + stage.toS) / 2;
      const lines = [stage.name, ...(stage.worstSensor ? [`worst: ${stage.worstSensor}`] : [])];
      const widthPx = Math.max(...lines.map(textWidthPx)) * 0.86;
      const middlePx = (middleS - fromS) * pxPerS;
      const xanchor =
        middlePx < widthPx / 2 ? 'left' : middlePx > PHONE_PLOT_PX - widthPx / 2 ? 'right' : 'center';
      const atS = { left: fromS, center: middleS, right: toS }[xanchor];
      const from = (atS - fromS) * pxPerS - widthPx * { left: 0, center: 0.5, right: 1 }[xanchor];
      const to = from + widthPx + 8;
      if (taken.some((other) => from < other.to && other.from < to)) return [];
      taken.push({ from, to });
      return [
        {
          text: lines.map(plotText).join('<br>'),
          x: Number((atS / scale.secondsPerUnit).toPrecision(7)),
          y: 1,
          xref: 'x',
          yref: 'y domain',
          xanchor,
          yanchor: 'bottom',
          yshift: 4,
          showarrow: false,
          font: { size: TEXT_PX - 1, color: QUIET_INK },
        } satisfies Annotation,
      ];
    });
}

/** Moments nearer than this share of the chart share one mark. */
const SHARED = 0.06;

function momentMarks(
  requirements: readonly Requirement[],
  scale: TimeScale,
  { fromS, toS }: Times,
): { readonly shapes: Shape[]; readonly annotations: Annotation[] } {
  const moments = requirements
    .flatMap(({ atS, verdict }, k) => (atS === null ? [] : [{ atS, verdict, number: k + 1 }]))
    .sort((a, b) => a.atS - b.atS);
  const groups: (typeof moments)[] = [];
  for (const moment of moments) {
    const open = groups[groups.length - 1];
    if (open && moment.atS - open[0]!.atS < SHARED * (toS - fromS)) open.push(moment);
    else groups.push([moment]);
  }
  const middle = (group: typeof moments) =>
    Number(
      (group.reduce((sum, { atS }) => sum + atS, 0) / group.length / scale.secondsPerUnit).toPrecision(7),
    );
  return {
    shapes: groups.map((group) => {
      const broken = group.some(({ verdict }) => verdict === 'not met');
      return {
        type: 'line',
        xref: 'x',
        yref: 'y domain',
        x0: middle(group),
        x1: middle(group),
        y0: 0,
        y1: 0.06,
        line: { color: broken ? INK : QUIET_INK, width: broken ? 2 : 1 },
        layer: 'above',
      };
    }),
    annotations: groups.map((group) => ({
      text: group
        .map(({ number, verdict }) => `${number}${verdict === 'met' ? '' : SIGNS[verdict]}`)
        .join(' '),
      x: middle(group),
      y: 0.06,
      xref: 'x',
      yref: 'y domain',
      xanchor: 'center',
      yanchor: 'bottom',
      showarrow: false,
      bgcolor: VEIL,
      font: {
        size: TEXT_PX - 1,
        color: INK,
        ...(group.some(({ verdict }) => verdict === 'not met') ? { weight: 700 } : {}),
      },
    })),
  };
}

/** "✗ 7  Ageing: …": what was found, and what was wanted where it is not met; broken into lines, a temperature whole. */
function requirementLines({ name, verdict, found, wanted, missing }: Requirement, k: number): string[] {
  const told =
    verdict === 'cannot tell'
      ? `cannot tell: ${missing}`
      : verdict === 'not met'
        ? `${found}; wanted: ${wanted}`
        : found;
  const lines = wrapped(
    `${SIGNS[verdict]} ${k + 1}  ${name}: ${told}`.replace(/ (?=°|\(-?\d)/g, '\u00a0'),
    LINE_LETTERS,
  );
  const shown = lines.slice(0, MOST_LINES);
  return lines.length > MOST_LINES ? [...shown.slice(0, -1), `${shown.at(-1)}…`] : shown;
}

function requirementList(
  requirements: readonly Requirement[],
  list: readonly (readonly string[])[],
  totalPx: number,
): Annotation[] {
  const rows = list.flat().length;
  let row = 0;
  return requirements.map(({ verdict }, k) => {
    const top = (rows - row) * ROW_PX;
    row += list[k]!.length;
    return {
      text: list[k]!.map(plotText).join('<br>'),
      x: 0,
      y: top / totalPx,
      xref: 'paper',
      yref: 'paper',
      xanchor: 'left',
      yanchor: 'top',
      align: 'left',
      xshift: -34,
      showarrow: false,
      font: {
        size: TEXT_PX,
        color: verdict === 'met' ? QUIET_INK : INK,
        ...(verdict === 'not met' ? { weight: 600 } : {}),
      },
    };
  });
}
