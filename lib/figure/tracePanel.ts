import type { Pass } from '../exposure';
import { type ThermalHistory, thinForPlot } from '../history';
import type { Fault } from '../log';
import { celsiusToFahrenheit, formatTemp } from '../quantity';
import { faultMarks } from './faultMarks';
import type { Annotation, Trace } from './figure';
import { type Panel, shortName, textWidthPx } from './panel';
import { spreadLabels } from './spreadLabels';
import { levelLine, lineLook, namingOf, plotText, QUIET_INK, TEXT_PX, VEIL } from './style';
import { temperatureAxes } from './temperatureAxes';
import type { TimeScale } from './timeScale';

/** What a trace is drawn from: a channel of a log, or any named history. */
export interface TracedChannel {
  readonly name: string;
  readonly history: ThermalHistory;
  readonly faults?: readonly Fault[];
}

/** A temperature drawn across the trace and named on its line. */
export interface FigureLimit {
  readonly name: string;
  readonly limitC: number;
}

export interface TraceOptions {
  readonly title?: string;
  readonly limits?: readonly FigureLimit[];
  /** Numbered above the trace at their peaks. */
  readonly passes?: readonly Pass[];
  /** Most points drawn for each channel; peaks survive. */
  readonly maxPoints?: number;
}

const LABEL_GAP_PX = 16;
/** Peaks closer than this share of the time span share one column of labels. */
const COLUMN_SHARE = 0.3;

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
  const direct = namingOf(all.map(({ name }) => name)) === 'direct';
  const axes = temperatureAxes(lowC, highC, place.domain);
  const lines = limits.map(({ name, limitC }) =>
    levelLine(limitC, `${name} ${formatTemp(limitC)}`, 'y', {
      end: emptierEnd(channels, span),
      side: roomAbove(limitC, limits, pxPerC),
    }),
  );
  const marks = faultMarks(
    channels.map(({ name, history, faults = [], look }) => ({
      name,
      history,
      faults,
      color: lineLook(look).color,
    })),
    scale,
    span.toS - span.fromS,
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
      rightAxisHolder(scale, span.fromS, lowC),
    ],
    annotations: [
      ...axes.headings,
      ...lines.map(({ label }) => label),
      ...(direct ? peakLabels(channels, peaks, scale, span, pxPerC) : []),
      ...passLabels(options.passes ?? [], scale),
      ...marks.annotations,
      ...footNotes(all, marks.data.length > 0),
    ],
    shapes: [...marks.shapes, ...lines.map(({ shape }) => shape)],
    axes: { yaxis: axes.left, yaxis2: axes.right },
    rightPx: textWidthPx('1000') + 12,
    legendNames: direct ? [] : channels.map(({ name }) => `${shortName(name)}, 000 °C`),
  };
}

/** A channel that holds something to draw; `look` is its place in the log, so its colour never depends on others. */
interface DrawnChannel extends TracedChannel {
  readonly look: number;
}

const drawn = (channels: readonly TracedChannel[]): DrawnChannel[] =>
  channels.flatMap((channel, look) => (channel.history.timeS.length > 0 ? [{ ...channel, look }] : []));

interface Peak {
  readonly timeS: number;
  readonly tempC: number;
}

function peakOf({ timeS, tempC }: ThermalHistory): Peak {
  let at = 0;
  for (let i = 1; i < tempC.length; i++) if (tempC[i]! > tempC[at]!) at = i;
  return { timeS: timeS[at]!, tempC: tempC[at]! };
}

function coldest({ tempC }: ThermalHistory): number {
  let low = tempC[0]!;
  for (let i = 1; i < tempC.length; i++) if (tempC[i]! < low) low = tempC[i]!;
  return low;
}

/** Fewer points for each line when there are many, so that a figure stays light. */
const pointsFor = (channels: number): number => Math.max(300, Math.round(4000 / Math.max(channels, 4)));

/** Every limit up to a little above the hottest reading, and always the next one above it. */
function limitsInSight(limits: readonly FigureLimit[], hottestC: number): readonly FigureLimit[] {
  const sorted = [...limits].sort((a, b) => a.limitC - b.limitC);
  const next = sorted.find((limit) => limit.limitC > hottestC);
  return sorted.filter((limit) => limit.limitC <= hottestC * 1.25 || limit === next);
}

/** A limit close under another one carries its name below its line. */
function roomAbove(limitC: number, limits: readonly FigureLimit[], pxPerC: number): 'above' | 'below' {
  const crowded = limits.some(
    (other) => other.limitC > limitC && (other.limitC - limitC) * pxPerC < LABEL_GAP_PX + 4,
  );
  return crowded ? 'below' : 'above';
}

/** The end of the panel where the metal was colder has room for names. */
function emptierEnd(
  channels: readonly TracedChannel[],
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
): 'left' | 'right' {
  const third = (toS - fromS) / 3;
  const hottest = (from: number, to: number) => {
    let high = Number.NEGATIVE_INFINITY;
    for (const { history } of channels)
      history.timeS.forEach((t, i) => {
        if (t >= from && t <= to && history.tempC[i]! > high) high = history.tempC[i]!;
      });
    return high;
  };
  return hottest(toS - third, toS) < hottest(fromS, fromS + third) ? 'right' : 'left';
}

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

function peakMark({ name, look }: DrawnChannel, peak: Peak, scale: TimeScale): Trace {
  const { color, symbol } = lineLook(look);
  return {
    type: 'scatter',
    mode: 'markers',
    name: plotText(`${name}, peak`),
    x: [Number((peak.timeS / scale.secondsPerUnit).toPrecision(7))],
    y: [Number(peak.tempC.toFixed(1))],
    yaxis: 'y',
    marker: { symbol, size: 7, color, line: { color: '#ffffff', width: 1 } },
    showlegend: false,
    hovertemplate: `${plotText(name)}<br>peak ${formatTemp(peak.tempC)}<extra></extra>`,
  };
}

/** Name and peak of each line beside its highest point; labels of nearby peaks are moved apart. */
function peakLabels(
  channels: readonly DrawnChannel[],
  peaks: readonly Peak[],
  scale: TimeScale,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
  pxPerC: number,
): Annotation[] {
  const offsets = new Array<number>(channels.length).fill(0);
  for (const column of columns(peaks, (toS - fromS) * COLUMN_SHARE)) {
    const wishes = column.map((index) => -peaks[index]!.tempC * pxPerC);
    spreadLabels(wishes, LABEL_GAP_PX).forEach((px, rank) => {
      offsets[column[rank]!] = px - wishes[rank]!;
    });
  }
  return channels.map(({ name, look }, index) => {
    const peak = peaks[index]!;
    const late = (peak.timeS - fromS) / (toS - fromS || 1) > 0.6;
    return {
      text: plotText(`${name} ${peak.tempC.toFixed(0)} °C`),
      x: Number((peak.timeS / scale.secondsPerUnit).toPrecision(7)),
      y: Number(peak.tempC.toFixed(1)),
      xref: 'x',
      yref: 'y',
      xanchor: late ? 'right' : 'left',
      yanchor: 'middle',
      showarrow: true,
      arrowhead: 0,
      arrowwidth: 0.8,
      arrowcolor: lineLook(look).color,
      standoff: 5,
      ax: late ? -18 : 18,
      ay: Number(offsets[index]!.toFixed(1)),
      bgcolor: VEIL,
      font: { size: TEXT_PX, color: lineLook(look).color, weight: 600 },
    };
  });
}

/** Groups of peaks whose labels would meet, by time. */
function columns(peaks: readonly Peak[], nearS: number): number[][] {
  const byTime = peaks.map((_, index) => index).sort((a, b) => peaks[a]!.timeS - peaks[b]!.timeS);
  const groups: number[][] = [];
  for (const index of byTime) {
    const open = groups[groups.length - 1];
    if (open && peaks[index]!.timeS - peaks[open[open.length - 1]!]!.timeS < nearS) open.push(index);
    else groups.push([index]);
  }
  return groups;
}

function passLabels(passes: readonly Pass[], scale: TimeScale): Annotation[] {
  return passes.map((pass) => ({
    text: pass.number === passes[0]!.number ? `pass ${pass.number}` : String(pass.number),
    x: Number((pass.peakS / scale.secondsPerUnit).toPrecision(7)),
    y: 1,
    xref: 'x',
    yref: 'y domain',
    xanchor: 'center',
    yanchor: 'bottom',
    yshift: 8,
    showarrow: false,
    font: { size: TEXT_PX - 1, color: QUIET_INK },
  }));
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

/** An axis without a trace is not drawn: this one holds the °F axis and shows nothing. */
function rightAxisHolder(scale: TimeScale, fromS: number, lowC: number): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    x: [fromS / scale.secondsPerUnit],
    y: [lowC],
    yaxis: 'y2',
    marker: { size: 0.1, color: 'rgba(0,0,0,0)' },
    showlegend: false,
    hoverinfo: 'skip',
  };
}
