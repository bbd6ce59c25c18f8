import { formatDuration } from '../../quantity';
import type { LogStatements } from '../logStatements';
import type { Reading } from '../reading';
import type { ClockFormat } from '../readOptions';
import type { OpenReading, WayToRead } from '../thermalLog';
import type { ClockAxis } from './clockAxis';
import type { ClockPlan } from './clockPlan';

/** Metal under an arc is not heated faster than this, nor is a log kept of anything slower, K/s. */
const FASTEST_K_PER_S = 400;
const SLOWEST_K_PER_S = 0.01;
/** Nothing that is welded or heat-treated is logged more seldom or for longer, s. */
const LONGEST_INTERVAL_S = 3600;
const LONGEST_LOG_S = 30 * 86_400;
const SHORTEST_INTERVAL_S = 0.001;
/** A step that is a round part of a second (0.1, 0.2, 0.5) counts seconds. */
const ROUND_PARTS = [0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5];

interface Trace {
  readonly tempC: Float64Array;
  readonly marks: Uint8Array;
}

/**
 * Other meanings of a clock that says nothing of its unit: those in which the metal still heats and cools as
 * metal can, and a log could be so long. Nothing when the unit is said, or only one meaning is possible.
 */
export function openClock(
  plan: ClockPlan,
  axis: ClockAxis,
  channels: readonly Trace[],
  stated: LogStatements['interval'],
  reading: Reading,
): OpenReading | undefined {
  if ((plan.kind !== 'elapsed' && plan.kind !== 'time') || !plan.unsaid) return undefined;
  const { options } = reading;
  const { timeS, intervalS } = axis;
  const spanS = timeS[timeS.length - 1]! - timeS[0]!;
  const rate = fastestRate(channels, timeS);
  const way = (format: ClockFormat, times: number): WayToRead => ({
    words: `${NAMES[format]} (${formatDuration(spanS * times)} long)`,
    options: { ...options, clock: { ...options.clock, format } },
  });
  const isPossible = (times: number) => {
    const step = intervalS * times;
    return (
      step >= SHORTEST_INTERVAL_S &&
      step <= LONGEST_INTERVAL_S &&
      spanS * times <= LONGEST_LOG_S &&
      rate / times <= FASTEST_K_PER_S &&
      rate / times >= SLOWEST_K_PER_S
    );
  };
  const others =
    plan.kind === 'elapsed'
      ? otherUnits(intervalS)
          .filter(([, times]) => isPossible(times))
          .map(([format, times]) => way(format, times))
      : otherForm(plan.form, timeS[0]!, axis)
          .filter(([, times]) => isPossible(times))
          .map(([f, t]) => way(f, t));
  if (stated && Math.abs(stated.intervalS - intervalS) > 0.02 * stated.intervalS) {
    const times = stated.intervalS / intervalS;
    if (isPossible(times))
      others.push({
        words: `${formatDuration(stated.intervalS)} from row to row, as "${stated.words.slice(0, 60)}" has it (${formatDuration(spanS * times)} long)`,
        options: { ...options, intervalS: stated.intervalS },
      });
  }
  if (others.length === 0) return undefined;
  return {
    of: 'clock',
    option: 'clock.format',
    because:
      plan.kind === 'elapsed'
        ? 'Nothing says in which unit the clock counts.'
        : 'The two parts of the clock may be hours and minutes or minutes and seconds.',
    taken: way(plan.kind === 'elapsed' ? 's' : plan.form, 1),
    other: others,
  };
}

const NAMES: Readonly<Partial<Record<ClockFormat, string>>> = {
  s: 'seconds',
  ms: 'milliseconds',
  min: 'minutes',
  h: 'hours',
  'h:m:s': 'hours and minutes',
  'm:s': 'minutes and seconds',
};

type Meaning = readonly [format: ClockFormat, times: number];

function otherUnits(intervalS: number): readonly Meaning[] {
  const isPartOfSecond = ROUND_PARTS.some((part) => Math.abs(intervalS - part) < 1e-6);
  if (isPartOfSecond) return [];
  const whole: readonly Meaning[] = [
    ['min', 60],
    ['h', 3600],
  ];
  return [...(Number.isInteger(intervalS) ? [['ms', 0.001] as Meaning] : []), ...whole];
}

/** A clock that starts in the small hours of an elapsed time; 14:05 is a time of day. */
function otherForm(form: 'h:m:s' | 'm:s', firstS: number, { clockStartS }: ClockAxis): readonly Meaning[] {
  if (form === 'm:s') return [['h:m:s', 60]];
  return (clockStartS ?? firstS) < 3600 ? [['m:s', 1 / 60]] : [];
}

/** Fastest change over two steps that any channel shows, K/s; single readings that jump are left out. */
function fastestRate(channels: readonly Trace[], timeS: Float64Array): number {
  let fastest = 0;
  for (const { tempC, marks } of channels)
    for (let i = 2; i < timeS.length; i++) {
      if (marks[i] !== 0 || marks[i - 1] !== 0 || marks[i - 2] !== 0) continue;
      const rise = Math.abs(tempC[i]! - tempC[i - 2]!);
      if (rise > 1) fastest = Math.max(fastest, rise / (timeS[i]! - timeS[i - 2]!));
    }
  return fastest;
}
