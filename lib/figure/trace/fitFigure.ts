import type { Calibration } from '../../heatflow';
import { thinForPlot } from '../../history';
import type { Figure, Trace } from '../figure';
import { namingOf } from '../parts/naming';
import { assemble, type Panel } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import { axisHeading, baseAxis, INK, lineLook, plotText, QUIET_INK } from '../parts/style';
import { type TimeScale, timeAxis, timeScale } from '../parts/timeScale';
import type { TracedChannel } from './tracedChannel';
import { spanOf } from './traceFigure';
import { tracePanel } from './tracePanel';

const TRACE_PX = 270;
const GAP_PX = 44;
const MISFIT_PX = 120;
const TOTAL_PX = TRACE_PX + GAP_PX + MISFIT_PX;
const POINTS = 400;

/**
 * How well a fitted model follows a log: readings with the model dashed over them, and under them on the same time
 * axis what is left, reading less model. Throws `TemperbookError` when there is no channel.
 */
export function fitFigure(
  logged: readonly TracedChannel[],
  { channels, passes }: Pick<Calibration<string>, 'channels' | 'passes'>,
  title = 'Readings, and the fitted model (dashed)',
): Figure {
  const shown = requireSome(
    logged.filter(({ name }) => channels.some((fitted) => fitted.name === name)),
    'fit',
  );
  const span = spanOf(shown);
  const scale = timeScale(span.toS - span.fromS);
  const traces = tracePanel(shown, { passes }, scale, span, {
    domain: [1 - TRACE_PX / TOTAL_PX, 1],
    heightPx: TRACE_PX,
  });
  const looks = new Map(shown.map(({ name }, look) => [name, look]));
  const fitted = channels.filter(({ name }) => looks.has(name));
  return assemble(title, TOTAL_PX, timeAxis(scale, span.fromS, span.toS, 'y3'), [
    { ...traces, data: [...traces.data, ...fitted.map((channel) => modelLine(channel, scale))] },
    misfitPanel(fitted, looks, scale),
  ]);
}

type Fitted = Calibration<string>['channels'][number];

function modelLine({ name, predicted }: Fitted, scale: TimeScale): Trace {
  const { timeS, tempC } = thinForPlot(predicted, POINTS);
  return {
    type: 'scatter',
    mode: 'lines',
    name: plotText(`${name}, model`),
    x: inUnits(timeS, scale),
    y: Array.from(tempC, (temp) => Number(temp.toFixed(1))),
    yaxis: 'y',
    line: { color: INK, width: 1, dash: 'dash' },
    showlegend: false,
    hovertemplate: `${plotText(name)}, model<br>%{y:.0f} °C<extra></extra>`,
  };
}

function misfitPanel(fitted: readonly Fitted[], looks: ReadonlyMap<string, number>, scale: TimeScale): Panel {
  const { mode } = namingOf([...looks.keys()]);
  const worst = Math.max(1, ...fitted.map(({ worstC }) => worstC)) * 1.15;
  return {
    data: fitted.map(({ name, timeS, residualC }): Trace => {
      const { color, dash } = lineLook(looks.get(name)!, mode);
      return {
        type: 'scatter',
        mode: 'lines',
        name: plotText(`${name}, reading less model`),
        x: inUnits(timeS, scale),
        y: Array.from(residualC, (c) => Number(c.toFixed(2))),
        yaxis: 'y3',
        line: { color, width: 1.2, dash },
        showlegend: false,
        hovertemplate: `${plotText(name)}<br>%{y:.1f} °C off<extra></extra>`,
      };
    }),
    annotations: [axisHeading('Reading less model, °C', 'y3 domain')],
    shapes: [
      {
        type: 'line',
        xref: 'paper',
        yref: 'y3',
        x0: 0,
        x1: 1,
        y0: 0,
        y1: 0,
        line: { color: QUIET_INK, width: 1 },
        layer: 'below',
      },
    ],
    axes: {
      yaxis3: { ...baseAxis(), range: [-worst, worst], domain: [0, MISFIT_PX / TOTAL_PX], nticks: 5 },
    },
    rightPx: 20,
    legendNames: [],
  };
}

const inUnits = (timeS: Float64Array, { secondsPerUnit }: TimeScale): number[] =>
  Array.from(timeS, (t) => Number((t / secondsPerUnit).toPrecision(7)));
