import { formatDuration, formatTemp, type Judged, judged } from '../../quantity';
import type { WaitStage } from '../schedule/schedule';
import type { HoldWindow } from './chartStages';
import { firstAfter } from './firstAfter';
import type { ChartQuench } from './quench/quenchRequirements';
import { compare, type Requirement } from './requirement';
import type { ChartSensor } from './sensorRoles';

/** The time at room temperature after the quench, as the chart shows it, s; undefined where it does not. */
export function quenchToAge(
  quench: ChartQuench | undefined,
  age: HoldWindow | undefined,
): Judged | undefined {
  if (!quench || !age || age.cutAtStart || age.fromS <= quench.immersedS) return undefined;
  const s = age.fromS - quench.immersedS;
  return judged(s, [s], 's', [
    'From the last load sensor under to the first one half-way to its first ageing temperature.',
  ]);
}

/** The wait between quench and ageing, or the natural ageing of a T4. */
export function waitRequirement(
  wait: WaitStage | undefined,
  quench: ChartQuench | undefined,
  age: HoldWindow | undefined,
  ageIsPlanned: boolean,
  loads: readonly ChartSensor[],
): Requirement[] {
  if (!wait) return [];
  const name = ageIsPlanned ? 'Wait between quench and ageing' : 'Natural ageing';
  const wanted = [
    `at least ${formatDuration(wait.leastH * 3600)}`,
    ...(wait.mostH === null ? [] : [`at most ${formatDuration(wait.mostH * 3600)}`]),
    `at ${formatTemp(wait.lowC)} to ${formatTemp(wait.highC)}`,
  ].join(', ');
  const base = { name, stage: 'wait', wanted } as const;
  if (!quench)
    return [
      {
        ...base,
        verdict: 'cannot tell',
        found: 'no quench on this chart',
        atS: null,
        missing: 'the chart of the quench',
      },
    ];
  // An age that begins between two charts began after the last reading of the first.
  const lastReadingS = Math.min(...loads.map(({ history }) => lastBefore(history, age?.fromS)));
  const open = !ageIsPlanned || age === undefined || age.cutAtStart;
  const recordedS = Math.max(0, (open ? lastReadingS : age.fromS) - quench.immersedS);
  const known = { low: recordedS, high: open ? Number.POSITIVE_INFINITY : recordedS };
  const time = compare(known, {
    low: wait.leastH * 3600,
    ...(wait.mostH === null ? {} : { high: wait.mostH * 3600 }),
  });
  const range = rangeWithin(loads, quench.immersedS, quench.immersedS + recordedS, wait.highC);
  const unseenS = unrecordedS(loads, quench.immersedS, quench.immersedS + recordedS);
  const cold = range !== undefined && range.low < wait.lowC;
  const warm = range !== undefined && range.high > wait.highC;
  const verdict =
    time === 'not met' || time === 'cannot tell'
      ? time
      : range === undefined || cold || warm || unseenS > 0
        ? 'cannot tell'
        : 'met';
  const missing =
    time === 'cannot tell'
      ? ageIsPlanned
        ? 'the chart of the ageing'
        : 'the chart, or a date, of the end of the wait'
      : range === undefined || (unseenS > 0 && !cold && !warm)
        ? `the temperature during the wait${unseenS > 0 ? `: nobody recorded it for ${formatDuration(unseenS)}` : ''}`
        : 'what a wait outside its temperatures does: nobody published it for this alloy';
  return [
    {
      ...base,
      verdict,
      found: [
        `${formatDuration(recordedS)} after the quench`,
        ...(range === undefined ? [] : [`${formatTemp(range.low)} to ${formatTemp(range.high)}`]),
      ].join(', '),
      atS: quench.immersedS + recordedS,
      ...(verdict === 'cannot tell' ? { missing } : {}),
    },
  ];
}

/** Last reading of a sensor, or its last before a moment; 0 where it has none, s. */
const lastBefore = ({ timeS }: ChartSensor['history'], beforeS = Number.POSITIVE_INFINITY): number =>
  timeS[firstAfter(timeS, beforeS) - 1] ?? 0;

/** Time within a stretch that the load sensor recorded best does not cover, s; less than a second is rounding. */
function unrecordedS(loads: readonly ChartSensor[], fromS: number, toS: number): number {
  const covered = loads.map(({ history: { timeS, gapAfter } }) => {
    const within = (a: number, b: number): number => Math.max(0, Math.min(b, toS) - Math.max(a, fromS));
    const gaps = [...(gapAfter ?? [])].reduce((sum, i) => sum + within(timeS[i]!, timeS[i + 1]!), 0);
    return within(timeS[0]!, timeS[timeS.length - 1]!) - gaps;
  });
  const unseenS = toS - fromS - Math.max(...covered);
  return unseenS < 1 ? 0 : unseenS;
}

/** Coldest and hottest load reading once each sensor has first come down to the band; undefined where none does. */
function rangeWithin(
  loads: readonly ChartSensor[],
  fromS: number,
  toS: number,
  highC: number,
): { readonly low: number; readonly high: number } | undefined {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { history } of loads) {
    let down = false;
    // The load is on its way to the ageing temperature in the last readings: up to where it leaves the band.
    let last = history.timeS.length - 1;
    while (last > 0 && (history.timeS[last]! > toS || history.tempC[last]! > highC)) last--;
    for (let i = 0; i <= last; i++) {
      if (history.timeS[i]! < fromS) continue;
      if (history.tempC[i]! <= highC) down = true;
      if (!down) continue;
      low = Math.min(low, history.tempC[i]!);
      high = Math.max(high, history.tempC[i]!);
    }
  }
  return Number.isFinite(low) ? { low, high } : undefined;
}
