import type { ThermalHistory } from '../../history';
import type { Schedule } from '../schedule/schedule';
import { firstAfter } from './firstAfter';
import { type LevelRun, levelRuns } from './levelRuns';
import type { ChartSensor } from './sensorRoles';

/** A stretch of the chart, s. */
export interface Span {
  readonly fromS: number;
  readonly toS: number;
}

/** One hold of the schedule as the chart shows it, from the first sensor that nears it to the last that leaves. */
export interface HoldWindow extends Span {
  /** The chart it lies on begins or ends within it. */
  readonly cutAtStart: boolean;
  readonly cutAtEnd: boolean;
}

/** Where the holds of a schedule lie on a chart. */
export interface ChartStages {
  readonly solution?: HoldWindow;
  /** One for each step of the ageing; undefined where the chart does not hold it. */
  readonly ages: readonly (HoldWindow | undefined)[];
  /** Why the chart cannot be read as one load. */
  readonly severalLoads?: string;
}

const ROOM_C = 25;
/** An ageing temperature passed in the quench is no age unless a sensor stays in its band so long, s. */
const SHORTEST_HOLD_S = 600;

/** One sensor's way through the schedule. */
interface SensorStages {
  readonly solutions: readonly Span[];
  readonly ages: readonly (Span | undefined)[];
  /** It heated up once more after all steps were done. */
  readonly again: boolean;
}

/**
 * Finds the holds of a schedule on a chart: each sensor's trace is cut where it passes the middle between two
 * levels of the schedule, and the pieces are matched with its stages in their order. An ageing temperature passed
 * on the way up to solution or down in the quench is no age.
 * @param parts what each chart covers where several were joined: a hold is cut where its chart ends.
 */
export function chartStages(
  loads: readonly ChartSensor[],
  schedule: Schedule,
  parts: readonly Span[],
): ChartStages {
  const held = loads.filter(({ history }) => history.timeS.length > 1);
  const each = held.map(({ history }) => sensorStages(history, schedule));
  const recorded = parts.flatMap((part) => recordedOn(held, part) ?? []);
  const windowOf = (spans: readonly (Span | undefined)[]): HoldWindow | undefined => {
    const seen = spans.filter((span): span is Span => span !== undefined);
    if (seen.length === 0) return undefined;
    const fromS = Math.min(...seen.map((s) => s.fromS));
    const toS = Math.max(...seen.map((s) => s.toS));
    const on = partsOf({ fromS, toS }, recorded);
    return {
      fromS,
      toS,
      cutAtStart: on.length === 0 || fromS <= on[0]!.fromS,
      cutAtEnd: on.length === 0 || toS >= on[on.length - 1]!.toS,
    };
  };
  const solutionSpans = each.map(({ solutions }) => solutions[0]);
  const stepSpans = schedule.ages.map((_, k) => each.map(({ ages }) => ages[k]));
  const solution = windowOf(solutionSpans);
  const ages = stepSpans.map(windowOf);
  const severalLoads =
    each.some(({ solutions }) => solutions.length > 1) || !together(solutionSpans)
      ? 'the chart holds more than one solution treatment'
      : each.some(({ again }) => again) || stepSpans.some((spans) => !together(spans))
        ? 'the chart holds more ageing than the schedule'
        : undefined;
  return { ...(solution ? { solution } : {}), ages, ...(severalLoads ? { severalLoads } : {}) };
}

/** From the first to the last reading of a load sensor on one of the charts. */
function recordedOn(loads: readonly ChartSensor[], { fromS, toS }: Span): Span | undefined {
  const ends = loads.flatMap(({ history: { timeS } }): Span[] => {
    const last = firstAfter(timeS, toS) - 1;
    const before = firstAfter(timeS, fromS) - 1;
    const first = before >= 0 && timeS[before] === fromS ? before : before + 1;
    return first <= last ? [{ fromS: timeS[first]!, toS: timeS[last]! }] : [];
  });
  if (ends.length === 0) return undefined;
  return { fromS: Math.min(...ends.map((e) => e.fromS)), toS: Math.max(...ends.map((e) => e.toS)) };
}

/** The charts on which a stretch of time lies, or on which it lies in part. */
export const partsOf = ({ fromS, toS }: Span, parts: readonly Span[]): readonly Span[] =>
  parts.filter((part) => part.fromS < toS && part.toS > fromS);

/** Were all sensors there at one time? Sensors of two loads are not. */
function together(spans: readonly (Span | undefined)[]): boolean {
  const seen = spans.filter((span): span is Span => span !== undefined);
  return seen.length < 2 || Math.max(...seen.map((s) => s.fromS)) < Math.min(...seen.map((s) => s.toS));
}

function sensorStages(history: ThermalHistory, { solution, ages }: Schedule): SensorStages {
  const setsC = [...new Set([...(solution ? [solution.setC] : []), ...ages.map(({ setC }) => setC)])];
  const levelsC = [ROOM_C, ...setsC.sort((a, b) => a - b)];
  const runs = levelRuns(history, levelsC);
  const levelOf = (setC: number): number => levelsC.indexOf(setC);
  const solutions: Span[] = [];
  let next = 0;
  if (solution) {
    const top = levelOf(solution.setC);
    let sinceCold = true;
    runs.forEach((run, k) => {
      if (run.level === 0) sinceCold = true;
      if (run.level !== top) return;
      const before = solutions[solutions.length - 1];
      if (sinceCold || !before) solutions.push({ fromS: run.fromS, toS: run.toS });
      else solutions[solutions.length - 1] = { fromS: before.fromS, toS: run.toS };
      if (solutions.length === 1) next = k + 1;
      sinceCold = false;
    });
  }
  if (next > 0) next = afterQuench(runs, next, history, ages);
  const found: (Span | undefined)[] = [];
  for (const [k, { setC }] of ages.entries()) {
    const first = runs.findIndex((run, i) => i >= next && run.level === levelOf(setC));
    if (first < 0) {
      found.push(undefined);
      continue;
    }
    // A step lasts until the load goes to room temperature or the next step begins.
    const following = ages[k + 1] ? levelOf(ages[k + 1]!.setC) : -1;
    let last = first;
    for (let i = first + 1; i < runs.length && runs[i]!.level !== 0 && runs[i]!.level !== following; i++)
      if (runs[i]!.level === runs[first]!.level) last = i;
    found.push({ fromS: runs[first]!.fromS, toS: runs[last]!.toS });
    next = last + 1;
  }
  const again =
    solutions.length < 2 &&
    runs.some((run, i) => i >= next && run.level > 0 && i > 0 && runs[i - 1]!.level === 0);
  return { solutions, ages: found, again: again && found.some((span) => span !== undefined) };
}

/** The first run after the quench: one at an ageing level that a sensor only falls through belongs to the quench. */
function afterQuench(
  runs: readonly LevelRun[],
  from: number,
  { timeS, tempC }: ThermalHistory,
  ages: Schedule['ages'],
): number {
  let next = from;
  while (next < runs.length && runs[next]!.level > 0) {
    const { fromS, toS } = runs[next]!;
    let inBandS = 0;
    for (let i = 1; i < timeS.length; i++)
      if (
        timeS[i - 1]! >= fromS &&
        timeS[i]! <= toS &&
        ages.some((a) => tempC[i]! >= a.lowC && tempC[i]! <= a.highC)
      )
        inBandS += timeS[i]! - timeS[i - 1]!;
    if (inBandS >= SHORTEST_HOLD_S) break;
    next++;
  }
  return next;
}
