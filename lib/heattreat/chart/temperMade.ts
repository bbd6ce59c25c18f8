import { loadAlloy } from '../../alloy';
import { peak } from '../../exposure';
import { isothermal, join, type ThermalHistory } from '../../history';
import { formatDuration, type Judged, TemperbookError } from '../../quantity';
import { bandOfDraws, ROUTINE_DRAWS, strengthAfter } from '../../strength';
import type { Schedule } from '../schedule/schedule';
import { scheduledHistory } from '../schedule/scheduledHistory';
import type { ChartCheck } from './checkChart';
import { sinceQuench } from './sinceQuench';

/** What the furnace made of the metal at one sensor. */
export interface SensorTemper {
  readonly sensor: string;
  /** From the end of the quench, or from the start of a chart of ageing only. */
  readonly history: ThermalHistory;
  readonly yieldMPa: Judged;
  /** Yield of every draw over that of the schedule as set: what this chart says of plausible metal i. */
  readonly ofSchedule: Float64Array;
  readonly word: 'under-aged' | 'as the schedule' | 'over-aged' | 'cannot tell';
  readonly because: string;
}

/** What temper the chart made, sensor by sensor. */
export interface TemperMade {
  readonly sensors: readonly SensorTemper[];
  /** What the schedule makes by the same metals, from its least heat to its most, MPa. */
  readonly bySchedule: { readonly leastHeat: Judged; readonly asSet: Judged; readonly mostHeat: Judged };
}

/** An hour more at the hottest it was tells on which side of its peak metal is, s. */
const PROBE_S = 3600;
const BECAUSE = [
  'The temper’s own yield, times what each plausible metal makes of this ageing over what it makes of the schedule as set.',
  'What the quench cost is not in it.',
];

/**
 * Yield at each load sensor, and how that stands to what the schedule makes. Each plausible metal is aged from the quench
 * along the sensor's history and along the schedule as set; the ratio of the two, times the yield parts of this temper
 * have, is the yield at the sensor. So a chart that keeps the schedule gives the very temper that `judge` starts from, and
 * the metals' own error cancels in the word. Metal below the schedule's own range is under-aged where more time would
 * harden it; metal that more time would soften, where the schedule's own would still harden, is over-aged.
 * @throws TemperbookError for a chart without an age, or without a load sensor, and as `strengthAfter` (an alloy without a
 * card, a temper its card does not have).
 */
export function temperMade(check: ChartCheck): TemperMade {
  const { schedule, sensors, stages } = check;
  const age = schedule.ages[schedule.ages.length - 1];
  const lastAge = stages.filter(({ kind }) => kind === 'age').at(-1);
  const loads = sensors.filter(
    ({ role, history: { timeS } }) =>
      role === 'load' &&
      timeS.length > 1 &&
      lastAge !== undefined &&
      timeS[timeS.length - 1]! > lastAge.fromS,
  );
  if (!age || loads.length === 0)
    throw new TemperbookError('The chart shows no ageing of a load sensor', {
      found: check.sentence,
      remedy: 'Give the chart of the ageing, and say which sensors sit in the load',
    });
  const waitH = check.quenchToAgeS ? check.quenchToAgeS.nominal / 3600 : undefined;
  const scheduled = (corner: 'least heat' | 'as set' | 'most heat') =>
    scheduledHistory(schedule, { corner, fromQuench: true, ...(waitH === undefined ? {} : { waitH }) });
  const compare = againstSchedule(schedule, scheduled('as set'));
  const bySchedule = {
    leastHeat: compare(scheduled('least heat')).yieldMPa,
    asSet: compare(scheduled('as set')).yieldMPa,
    mostHeat: compare(scheduled('most heat')).yieldMPa,
  };
  const lowest = Math.min(...Object.values(bySchedule).map(({ nominal }) => nominal));
  const anHourAdds = (history: ThermalHistory, made: Judged): number =>
    compare(join([history, isothermal(peak(history).tempC, PROBE_S)])).yieldMPa.nominal - made.nominal;
  const mostHeatGains = anHourAdds(scheduled('most heat'), bySchedule.mostHeat) > 0;
  return {
    bySchedule,
    sensors: loads.map((sensor) => {
      const { history, layS } = sinceQuench(sensor, check);
      const made = compare(history);
      const more = anHourAdds(history, made.yieldMPa);
      const isShort = made.yieldMPa.nominal < lowest;
      const blind = (history.gapAfter?.length ?? 0) > 0;
      const word = (): SensorTemper['word'] => {
        if (blind) return 'cannot tell';
        if (more <= 0 && (isShort || mostHeatGains)) return 'over-aged';
        return isShort ? 'under-aged' : 'as the schedule';
      };
      return {
        sensor: sensor.name,
        history,
        ...made,
        word: word(),
        because: blind
          ? 'part of the ageing was not recorded'
          : `${made.yieldMPa.nominal.toFixed(0)} MPa; the schedule makes ${lowest.toFixed(0)} MPa or more of the same metals; an hour more at the hottest it was ${more > 0 ? 'adds' : 'takes'} ${Math.abs(more).toFixed(0)} MPa${layS > 0 ? `; for ${formatDuration(layS)} no chart shows it, and it is taken to have lain at room temperature` : ''}`,
      };
    }),
  };
}

/** Yield after ageing along a history, draw by draw against the schedule as set. */
function againstSchedule(
  { alloy, temper, startsFrom }: Schedule,
  asSet: ThermalHistory,
): (history: ThermalHistory) => Pick<SensorTemper, 'yieldMPa' | 'ofSchedule'> {
  const card = loadAlloy(alloy);
  const options = { draws: ROUTINE_DRAWS, endOnly: true };
  const before = startsFrom === 'as cast' ? 'F' : 'W';
  const aged = (history: ThermalHistory) => {
    const { yieldKept, startYieldMPa } = strengthAfter(
      history,
      { alloy: card, temper: before },
      options,
    ).draws;
    return yieldKept.map((kept, i) => kept * startYieldMPa[i]!);
  };
  const ofTemper = strengthAfter(isothermal(20, 1), { alloy: card, temper }, options).draws.startYieldMPa;
  const bySchedule = aged(asSet);
  return (history) => {
    const ofSchedule = aged(history).map((yieldMPa, i) => yieldMPa / bySchedule[i]!);
    const yieldMPa = bandOfDraws(
      ofSchedule.map((ratio, i) => ratio * ofTemper[i]!),
      'MPa',
      BECAUSE,
    );
    return { yieldMPa, ofSchedule };
  };
}
