import type { ThermalHistory } from '../../history';
import { formatTemp } from '../../quantity';
import type { Annotation, Trace } from '../figure';
import type { Naming } from '../parts/naming';
import { spreadLabelsBeside, type Taken } from '../parts/spreadLabels';
import { lineLook, plotText, TEXT_PX, VEIL } from '../parts/style';
import type { TimeScale } from '../parts/timeScale';
import type { TracedChannel } from './tracedChannel';

/** A channel that holds something to draw; `look` is its place in the log, so its colour never depends on others. */
export interface DrawnChannel extends TracedChannel {
  readonly look: number;
}

/** Hottest sample of a history. */
export interface Peak {
  readonly timeS: number;
  readonly tempC: number;
}

/** The hottest reading of a history and when it was taken. */
export function peakOf({ timeS, tempC }: ThermalHistory): Peak {
  let at = 0;
  for (let i = 1; i < tempC.length; i++) if (tempC[i]! > tempC[at]!) at = i;
  return { timeS: timeS[at]!, tempC: tempC[at]! };
}

const LABEL_GAP_PX = 16;
/** Peaks closer than this share of the time span share one column of labels. */
const COLUMN_SHARE = 0.3;

/** The peak itself, with the marker that is the line's second cue. */
export function peakMark({ name, look }: DrawnChannel, peak: Peak, scale: TimeScale): Trace {
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

/** Name and peak of each line beside its highest point; labels of nearby peaks are moved apart, and off the names of limits. */
export function peakLabels(
  channels: readonly DrawnChannel[],
  peaks: readonly Peak[],
  scale: TimeScale,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
  pxPerC: number,
  { label }: Naming,
  taken: readonly Taken[],
): Annotation[] {
  const offsets = new Array<number>(channels.length).fill(0);
  for (const column of columns(peaks, (toS - fromS) * COLUMN_SHARE)) {
    const wishes = column.map((index) => -peaks[index]!.tempC * pxPerC);
    spreadLabelsBeside(wishes, LABEL_GAP_PX, taken).forEach((px, rank) => {
      offsets[column[rank]!] = px - wishes[rank]!;
    });
  }
  return channels.map(({ name, look }, index) => {
    const peak = peaks[index]!;
    const late = (peak.timeS - fromS) / (toS - fromS || 1) > 0.6;
    return {
      text: plotText(`${label(name)} ${peak.tempC.toFixed(0)} °C`),
      x: Number((peak.timeS / scale.secondsPerUnit).toPrecision(7)),
      y: Number(peak.tempC.toPrecision(7)),
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
