import type { Pass } from '../../exposure';
import { type ThermalHistory, thinForPlot } from '../../history';
import { celsiusToFahrenheit } from '../../quantity';
import type { Annotation, Trace } from '../figure';
import { namingOf, shortName } from '../parts/naming';
import { type Panel, textWidthPx } from '../parts/panel';
import { lineLook, plotText, QUIET_INK, TEXT_PX, VEIL } from '../parts/style';
import { keepRightAxis, temperatureAxes } from '../parts/temperatureAxes';
import type { TimeScale } from '../parts/timeScale';
import { faultMarks } from './faultMarks';
import { type FigureLimit, limitLines, limitsInSight } from './limitLines';
import { type DrawnChannel, peakLabels, peakMark, peakOf } from './peaks';
import type { TracedChannel } from './tracedChannel';

/** What is drawn with the traces of a log. */
export interface TraceOptions {
  readonly title?: string;
  readonly limits?: readonly FigureLimit[];
  /** Numbered above the trace at their peaks. */
  readonly passes?: readonly Pass[];
  /** Most points drawn for each channel; peaks survive. */
  readonly maxPoints?: number;
}

/** The temperature panel: lines broken at gaps, faults crossed, limits named on their lines, °C and °F. */
export function tracePanel(
  all: readonly TracedChannel[],
  options: TraceOptions,
  scale: TimeScale,
  span: { readonly fromS: number; readonly toS: number },
  place: { readonly domain: readonly [number, number]; readonly heightPx: number },
): Panel {
  const channels = drawn(all);
  const peaks = channels.map(({ history }) => peakOf(history));
  const hottestC = Math.max(...peaks.map((peak) => peak.tempC));
  const limits = limitsInSight(options.limits ?? [], hottestC);
  const lowC = Math.min(0, ...channels.map(({ history }) => coldest(history)));
  const highC = Math.max(hottestC, ...limits.map((limit) => limit.limitC)) * 1.08 + 4;
  const pxPerC = place.heightPx / (highC - lowC);
  const naming = namingOf(all.map(({ name }) => name));
  const direct = naming.mode === 'direct';
  const axes = temperatureAxes(lowC, highC, place.domain);
  const lines = limitLines(limits, channels, span, pxPerC);
  const marks = faultMarks(
    channels.map(({ name, history, faults = [], look }) => ({
      name,
      label: naming.label(name),
      history,
      faults,
      color: lineLook(look).color,
    })),
    scale,
    span.toS - span.fromS,
    limits.map(({ limitC }) => (highC - limitC) * pxPerC),
  );
  const order = channels.map((_, index) => index).sort((a, b) => peaks[b]!.tempC - peaks[a]!.tempC);
  return {
    data: [
      ...(direct ? channels.map((_, index) => index) : order).map((index) =>
        line(
          channels[index]!,
          peaks[index]!.tempC,
          scale,
          options.maxPoints ?? pointsFor(channels.length),
          !direct,
        ),
      ),
      ...(direct ? channels.map((channel, index) => peakMark(channel, peaks[index]!, scale)) : []),
      ...marks.data,
      keepRightAxis(span.fromS / scale.secondsPerUnit, lowC),
    ],
    annotations: [
      ...axes.headings,
      ...lines.annotations,
      ...(direct ? peakLabels(channels, peaks, scale, span, pxPerC, naming, lines.taken) : []),
      ...passLabels(options.passes ?? [], scale, span.toS - span.fromS),
      ...marks.annotations,
      ...footNotes(all, marks.data.length > 0),
    ],
    shapes: [...marks.shapes, ...lines.shapes],
    axes: { yaxis: axes.left, yaxis2: axes.right },
    rightPx: textWidthPx('1000') + 12,
    legendNames: direct ? [] : channels.map(({ name }) => `${shortName(name)}, 000 °C`),
  };
}

const drawn = (channels: readonly TracedChannel[]): DrawnChannel[] =>
  channels.flatMap((channel, look) => (channel.history.timeS.length > 0 ? [{ ...channel, look }] : []));

function coldest({ tempC }: ThermalHistory): number {
  let low = tempC[0]!;
  for (let i = 1; i < tempC.length; i++) if (tempC[i]! < low) low = tempC[i]!;
  return low;
}

/** Fewer points for each line when there are many, so that a figure stays light. */
const pointsFor = (channels: number): number => Math.max(300, Math.round(4000 / Math.max(channels, 4)));

function line(
  { name, history, look }: DrawnChannel,
  peakC: number,
  scale: TimeScale,
  maxPoints: number,
  inLegend: boolean,
): Trace {
  const thinned = thinForPlot(history, maxPoints);
  const breaks = new Set(thinned.gapAfter ?? []);
  const x: (number | null)[] = [];
  const y: (number | null)[] = [];
  const fahrenheit: (number | null)[] = [];
  thinned.timeS.forEach((timeS, i) => {
    const tempC = thinned.tempC[i]!;
    x.push(Number((timeS / scale.secondsPerUnit).toPrecision(7)));
    y.push(Number(tempC.toFixed(1)));
    fahrenheit.push(Math.round(celsiusToFahrenheit(tempC)));
    if (breaks.has(i)) {
      x.push(null);
      y.push(null);
      fahrenheit.push(null);
    }
  });
  const { color, dash } = lineLook(look, inLegend ? 'legend' : 'direct');
  return {
    type: 'scatter',
    mode: 'lines',
    name: plotText(inLegend ? `${shortName(name)}, ${peakC.toFixed(0)} °C` : name),
    x,
    y,
    yaxis: 'y',
    connectgaps: false,
    line: { color, dash, width: inLegend ? 1.3 : 1.6, simplify: false },
    showlegend: inLegend,
    customdata: fahrenheit,
    hovertemplate: `${plotText(name)}<br>%{y:.0f} °C (%{customdata} °F)<br>%{x} ${scale.unit}<extra></extra>`,
  };
}

/** Passes nearer than this share of the span share one label. */
const PASS_SHARE = 0.03;

function passLabels(passes: readonly Pass[], scale: TimeScale, spanS: number): Annotation[] {
  const groups: Pass[][] = [];
  for (const pass of passes) {
    const open = groups[groups.length - 1];
    if (open && pass.peakS - open[open.length - 1]!.peakS < PASS_SHARE * spanS) open.push(pass);
    else groups.push([pass]);
  }
  return groups.map((group, rank) => {
    const numbers = group.map(({ number }) => number).join(', ');
    const middleS = group.reduce((sum, { peakS }) => sum + peakS, 0) / group.length;
    return {
      text: rank === 0 ? `pass ${numbers}` : numbers,
      x: Number((middleS / scale.secondsPerUnit).toPrecision(7)),
      y: 1,
      xref: 'x',
      yref: 'y domain',
      xanchor: 'center',
      yanchor: 'bottom',
      yshift: 8,
      showarrow: false,
      font: { size: TEXT_PX - 1, color: QUIET_INK },
    };
  });
}

/** Says once what a cross means, and which channels hold nothing that could be drawn. */
function footNotes(all: readonly TracedChannel[], crosses: boolean): Annotation[] {
  const empty = all.filter(({ history }) => history.timeS.length === 0).map(({ name }) => shortName(name));
  const notes = [
    ...(empty.length > 0 ? [`no trusted reading: ${empty.join(', ')}`] : []),
    ...(crosses ? ['✕ reading left out'] : []),
  ];
  return notes.map((text, k) => ({
    text: plotText(text),
    x: 1,
    y: 0,
    xref: 'paper',
    yref: 'y domain',
    xanchor: 'right',
    yanchor: 'bottom',
    xshift: -4,
    yshift: 4 + 15 * k,
    showarrow: false,
    bgcolor: VEIL,
    font: { size: TEXT_PX - 1, color: QUIET_INK },
  }));
}
