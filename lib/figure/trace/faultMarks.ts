import { lastAtOrBefore, type ThermalHistory } from '../../history';
import type { Fault } from '../../log';
import type { Annotation, Shape, Trace } from '../figure';
import { plotText, QUIET_INK, TEXT_PX } from '../parts/style';
import type { TimeScale } from '../parts/timeScale';

/** Faults of one channel, and the readings beside which they are marked. */
export interface FaultyChannel {
  readonly name: string;
  /** What the figure calls it. */
  readonly label: string;
  readonly color: string;
  readonly history: ThermalHistory;
  readonly faults: readonly Fault[];
}

/** Faults nearer than this share of the span are marked by one cross. */
const MERGE_SHARE = 0.008;
/** A stretch longer than this share of the span is shaded as well. */
const SHADE_SHARE = 0.02;
/** A shaded stretch wider than this share has room for its name. */
const NAME_SHARE = 0.14;
const MOST_NAMES = 4;
const ROW_PX = 15;

/**
 * Crosses at the last trusted reading before each fault, one for each cluster, and pale bands with a name
 * over long ones. `limitsPx` are the limit lines' distances from the top, whose names the bands' names avoid.
 */
export function faultMarks(
  channels: readonly FaultyChannel[],
  scale: TimeScale,
  spanS: number,
  limitsPx: readonly number[],
): {
  readonly data: readonly Trace[];
  readonly shapes: readonly Shape[];
  readonly annotations: readonly Annotation[];
} {
  const free = freeRows(limitsPx);
  const data: Trace[] = [];
  const shaded: [number, number][] = [];
  const annotations: Annotation[] = [];
  for (const { name, label, color, history, faults } of channels) {
    const clusters = cluster(faults, spanS * MERGE_SHARE);
    if (clusters.length === 0) continue;
    data.push({
      type: 'scatter',
      mode: 'markers',
      name: plotText(`${name}, left out`),
      x: clusters.map(({ fromS }) => round(fromS / scale.secondsPerUnit)),
      y: clusters.map(({ fromS }) => Number(lastTrustedC(history, fromS).toFixed(1))),
      marker: { symbol: 'x-thin', size: 8, color, line: { color, width: 1.6 } },
      showlegend: false,
      text: clusters.map(({ members }) => plotText(`${name}: ${describe(members)}`)),
      hovertemplate: '%{text}<extra></extra>',
    });
    for (const { fromS, toS, members } of clusters) {
      if (toS - fromS < spanS * SHADE_SHARE) continue;
      const x0 = fromS / scale.secondsPerUnit;
      const x1 = toS / scale.secondsPerUnit;
      shaded.push([x0, x1]);
      if (toS - fromS >= spanS * NAME_SHARE && annotations.length < MOST_NAMES)
        annotations.push({
          text: plotText(`${label} ${members[0]!.kind}`),
          x: (x0 + x1) / 2,
          y: 1,
          xref: 'x',
          yref: 'y domain',
          xanchor: 'center',
          yanchor: 'top',
          yshift: -free[annotations.length]!,
          showarrow: false,
          font: { size: TEXT_PX - 1, color: QUIET_INK },
        });
    }
  }
  return { data, shapes: united(shaded).map(shade), annotations };
}

/** Distances from the top at which a name meets no limit's, px. */
function freeRows(limitsPx: readonly number[]): number[] {
  const rows: number[] = [];
  for (let top = 4; rows.length < MOST_NAMES; top += ROW_PX)
    if (limitsPx.every((limit) => top + ROW_PX <= limit - ROW_PX - 2 || top >= limit + 2)) rows.push(top);
  return rows;
}

/** Stretches that overlap become one, so that shade never lies on shade. */
function united(stretches: readonly (readonly [number, number])[]): [number, number][] {
  const whole: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const open = whole[whole.length - 1];
    if (open && from <= open[1]) open[1] = Math.max(open[1], to);
    else whole.push([from, to]);
  }
  return whole;
}

const shade = ([x0, x1]: readonly [number, number]): Shape => ({
  type: 'rect',
  xref: 'x',
  yref: 'y domain',
  x0,
  x1,
  y0: 0,
  y1: 1,
  fillcolor: 'rgba(29,33,39,0.05)',
  line: { width: 0 },
  layer: 'below',
});

interface Cluster {
  readonly fromS: number;
  toS: number;
  readonly members: Fault[];
}

function cluster(faults: readonly Fault[], nearS: number): Cluster[] {
  const clusters: Cluster[] = [];
  for (const fault of [...faults].sort((a, b) => a.fromS - b.fromS)) {
    const open = clusters[clusters.length - 1];
    if (open && open.members[0]!.kind === fault.kind && fault.fromS - open.toS <= nearS) {
      open.toS = Math.max(open.toS, fault.toS);
      open.members.push(fault);
    } else clusters.push({ fromS: fault.fromS, toS: fault.toS, members: [fault] });
  }
  return clusters;
}

function describe(members: readonly Fault[]): string {
  const first = members[0]!;
  const last = members[members.length - 1]!;
  const count = members.length > 1 ? `${members.length} × ` : '';
  const rows = first.row === last.lastRow ? `row ${first.row}` : `rows ${first.row} to ${last.lastRow}`;
  return `${count}${first.kind}, ${rows}. ${first.reason}`;
}

/** Reading of the last sample at or before a time, °C; of the first sample for earlier times. */
const lastTrustedC = ({ timeS, tempC }: ThermalHistory, atS: number): number =>
  tempC[Math.max(0, lastAtOrBefore(timeS, atS))]!;

const round = (x: number): number => Number(x.toPrecision(7));
