import { type ThermalHistory, thermalHistory } from '../../history';
import { GAP_INTERVALS, type ThermalLog } from '../../log';
import { formatDuration, requireNumber, TemperbookError } from '../../quantity';
import type { Span } from './chartStages';
import { type ChartSensor, checkTold, sensorRoles, type ToldSensors } from './sensorRoles';

/** A furnace chart as `readLog` gives it; what it is called and when it started are needed where several are joined. */
export type ChartLog = Pick<ThermalLog, 'channels'> &
  Partial<Pick<ThermalLog, 'source' | 'startedAt' | 'intervalS' | 'leftAside'>>;

/** What the charts do not say themselves. */
export interface JoinOptions {
  /** What a sensor sits in; see `sensorRoles`. */
  readonly sensors?: ToldSensors;
  /** From the last reading of a chart to the first of the next, s, one for each; in place of their clocks. */
  readonly pausesS?: readonly number[];
}

/** One chart, or several of one load on one clock. */
export interface JoinedChart {
  readonly sensors: readonly ChartSensor[];
  /** What each chart covers, in their order, s. */
  readonly parts: readonly Span[];
  /** How they were joined, which sensors stand on some of them only, and columns that were left aside. */
  readonly notes: readonly string[];
}

/** Clocks that differ from a stated pause by more than this are told, s. */
const CLOCK_S = 60;

/**
 * Joins the charts of one load: solution and ageing in two files, or a chart that was interrupted. They are put on one
 * clock by the dates in them, the earliest first, or in the order given with the pauses you state; sensors of one name are
 * one sensor. What lies between two charts is a gap, unless it is no longer than a chart's own rows lie apart: nobody
 * recorded it. Each sensor's place is told from its own chart.
 * @throws TemperbookError for charts without a date and without stated pauses, charts that overlap, the same file twice,
 * and as `sensorRoles`.
 */
export function joinCharts(
  logs: readonly ChartLog[],
  { sensors: told = {}, pausesS }: JoinOptions = {},
): JoinedChart {
  if (pausesS !== undefined) checkPauses(pausesS, logs.length);
  checkTwice(logs);
  const charts = logs.length < 2 || pausesS ? logs.map(undated) : byClock(logs.map(undated));
  const starts = charts.map(({ shiftS }) => shiftS);
  for (const [k, chart] of charts.entries()) {
    const before = charts[k - 1];
    if (!before) continue;
    const endS = before.span.toS + starts[k - 1]!;
    if (pausesS) starts[k] = endS + Math.max(pausesS[k - 1]!, 1e-3) - chart.span.fromS;
    else if (chart.span.fromS + starts[k]! <= endS)
      throw overlapping(before, chart, endS - starts[k]! - chart.span.fromS);
  }
  const parts = charts.map(({ span }, k) => ({ fromS: span.fromS + starts[k]!, toS: span.toS + starts[k]! }));
  const names = [...new Set(charts.flatMap(({ log }) => log.channels.map(({ name }) => name)))];
  checkTold(told, names);
  const found = charts.map(({ log }) => sensorRoles(log.channels, told));
  const isGap = parts.map(
    ({ fromS }, k) =>
      k > 0 &&
      fromS - parts[k - 1]!.toS >
        GAP_INTERVALS * Math.max(...[k - 1, k].map((j) => charts[j]!.log.intervalS ?? 0)) * (1 + 1e-9),
  );
  return {
    parts,
    sensors: names.map((name) => joinedSensor(name, found, starts, isGap)),
    notes: [
      ...(charts.length < 2 ? [] : [...joinNotes(charts, parts, pausesS), ...onSomeOnly(names, charts)]),
      ...charts.flatMap(leftAsideNote),
    ],
  };
}

/** A chart and what it covers on its own clock; `shiftS` puts that on the clock of all. */
interface Chart {
  readonly log: ChartLog;
  readonly name: string;
  readonly span: Span;
  readonly shiftS: number;
}

function undated(log: ChartLog, k: number): Chart {
  const held = log.channels.filter(({ history }) => history.timeS.length > 0);
  const name = log.source?.name ?? `chart ${k + 1}`;
  if (held.length === 0)
    throw new TemperbookError('The furnace chart holds no trusted reading', {
      file: name,
      remedy: 'Its notes and faults say why each was left out',
    });
  return {
    log,
    name,
    shiftS: 0,
    span: {
      fromS: Math.min(...held.map(({ history }) => history.timeS[0]!)),
      toS: Math.max(...held.map(({ history }) => history.timeS[history.timeS.length - 1]!)),
    },
  };
}

const ZONE = /(?:Z|[+-]\d{2}:\d{2})$/;

/** When a chart's clock reads 0, s; of dates without a zone on the clock of the wall. */
const clockS = ({ log: { startedAt } }: Chart): number =>
  Date.parse(ZONE.test(startedAt!) ? startedAt! : `${startedAt}Z`) / 1000;

/** All with a date, and all or none with their time zone. */
const sameKindOfClock = (charts: readonly Chart[]): boolean =>
  charts.every(({ log }) => log.startedAt !== undefined) &&
  new Set(charts.map(({ log }) => ZONE.test(log.startedAt!))).size === 1;

/** By the dates in the charts, the earliest first. */
function byClock(charts: readonly Chart[]): Chart[] {
  if (!sameKindOfClock(charts))
    throw new TemperbookError('The charts cannot be joined by their clocks', {
      found: charts
        .map(({ name, log }) => `${name} starts ${log.startedAt ? `at ${log.startedAt}` : 'on no date'}`)
        .join(', '),
      expected: 'a date in every chart, with a time zone in all of them or in none',
      remedy: 'Or state the pause between them: --pause 25h, pausesS, or "pauseH" in the job',
    });
  const firstS = Math.min(...charts.map(clockS));
  return charts
    .map((chart) => ({ ...chart, shiftS: clockS(chart) - firstS }))
    .sort((a, b) => a.shiftS + a.span.fromS - b.shiftS - b.span.fromS);
}

function checkPauses(pausesS: readonly number[], charts: number): void {
  if (pausesS.length !== charts - 1)
    throw new TemperbookError('The pauses between the charts do not fit them', {
      found: `${pausesS.length} pause${pausesS.length === 1 ? '' : 's'}, ${charts} chart${charts === 1 ? '' : 's'}`,
      expected: 'one pause for each chart after the first',
    });
  for (const pauseS of pausesS) requireNumber(pauseS, 'Pause between two charts in s', { low: 0 });
}

function checkTwice(logs: readonly ChartLog[]): void {
  const seen = new Map<string, string>();
  for (const { source } of logs) {
    if (!source) continue;
    const other = seen.get(source.sha256);
    if (other !== undefined)
      throw new TemperbookError('One chart is given twice', {
        found: other === source.name ? other : `the same bytes in ${other} and ${source.name}`,
        expected: 'each chart of the load once',
      });
    seen.set(source.sha256, source.name);
  }
}

const overlapping = (before: Chart, after: Chart, byS: number): TemperbookError =>
  new TemperbookError('Two charts cover the same time', {
    file: after.name,
    found: `it starts ${formatDuration(byS)} before ${before.name} ends`,
    expected: 'charts of one load that follow one another',
    remedy:
      'Of two loggers in one load at one time put the columns into one file; if a clock was wrong, state the pause between the charts',
  });

function joinedSensor(
  name: string,
  found: readonly (readonly ChartSensor[])[],
  starts: readonly number[],
  isGap: readonly boolean[],
): ChartSensor {
  const seen = found.flatMap((sensors, k) => {
    const sensor = sensors.find((one) => one.name === name);
    return sensor ? [{ sensor, k }] : [];
  });
  // What its name tells is the same on every chart; a trace may tell on one of them only.
  const { sensor: telling } = seen.find(({ sensor }) => sensor.role !== 'not told') ?? seen[0]!;
  if (seen.length === 1 && starts[seen[0]!.k] === 0) return telling;
  const timeS: number[] = [];
  const tempC: number[] = [];
  const gapAfter: number[] = [];
  let last = -1;
  for (const { sensor, k } of seen) {
    const { history } = sensor;
    if (history.timeS.length === 0) continue;
    const isBroken = last >= 0 && isGap.slice(last + 1, k + 1).some(Boolean);
    if (isBroken || (last >= 0 && k > last + 1)) gapAfter.push(timeS.length - 1);
    for (const i of history.gapAfter ?? []) gapAfter.push(timeS.length + i);
    for (let i = 0; i < history.timeS.length; i++) {
      timeS.push(history.timeS[i]! + starts[k]!);
      tempC.push(history.tempC[i]!);
    }
    last = k;
  }
  const history: ThermalHistory =
    timeS.length === 0 ? telling.history : thermalHistory(timeS, tempC, gapAfter);
  return { ...telling, history };
}

function joinNotes(
  charts: readonly Chart[],
  parts: readonly Span[],
  pausesS: readonly number[] | undefined,
): string[] {
  const pairs = charts
    .slice(1)
    .map((chart, k) => ({ before: charts[k]!, chart, s: parts[k + 1]!.fromS - parts[k]!.toS }));
  const between = pairs.map(
    ({ before, chart, s }) => `${formatDuration(s)} between ${before.name} and ${chart.name}`,
  );
  const otherwise = sameKindOfClock(charts)
    ? pairs.flatMap(({ before, chart, s }) => {
        const byClockS = clockS(chart) + chart.span.fromS - clockS(before) - before.span.toS;
        return Math.abs(byClockS - s) > CLOCK_S
          ? [`${formatDuration(byClockS)} between ${before.name} and ${chart.name}`]
          : [];
      })
    : [];
  return [
    `Joined ${pausesS ? 'with the pause you state' : 'by their clocks'}: ${between.join(', ')}.`,
    ...(otherwise.length > 0 ? [`Their clocks say otherwise: ${otherwise.join(', ')}.`] : []),
    ...(!pausesS && !charts.some(({ log }) => ZONE.test(log.startedAt!))
      ? ['No chart gives its time zone: one clock is taken for all.']
      : []),
  ];
}

function leftAsideNote({ log: { leftAside = [] }, name }: Chart): string[] {
  const columns = leftAside.map((column) => `"${column.name}" (${column.why})`);
  return columns.length === 0
    ? []
    : [`Columns of ${name} left aside: ${columns.join(', ')}. The reading option columns says otherwise.`];
}

function onSomeOnly(names: readonly string[], charts: readonly Chart[]): string[] {
  const lines = names.flatMap((name) => {
    const on = charts.filter(({ log }) => log.channels.some((one) => one.name === name));
    return on.length === charts.length ? [] : [`"${name}" on ${on.map((chart) => chart.name).join(' and ')}`];
  });
  return lines.length === 0
    ? []
    : [`Not on every chart: ${lines.join('; ')}. Each stage goes by the sensors of the charts it lies on.`];
}
