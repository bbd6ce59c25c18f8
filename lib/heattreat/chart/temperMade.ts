import { peak } from '../../exposure';
import { isothermal, join, slice, type ThermalHistory } from '../../history';
import { type Judged, TemperbookError } from '../../quantity';
import { scheduledHistory } from '../schedule/scheduledHistory';
import type { ChartCheck } from './checkChart';

/** Yield of freshly quenched metal after a history, MPa: the strength model is passed in. */
export type YieldAfterQuench = (fromQuench: ThermalHistory) => Judged;

/** What the furnace made of the metal at one sensor. */
export interface SensorTemper {
  readonly sensor: string;
  /** From the end of the quench, or from the start of a chart of ageing only. */
  readonly history: ThermalHistory;
  readonly yieldMPa: Judged;
  readonly word: 'under-aged' | 'as the schedule' | 'over-aged' | 'cannot tell';
  readonly because: string;
}

/** What temper the chart made, sensor by sensor. */
export interface TemperMade {
  readonly sensors: readonly SensorTemper[];
  /** What the schedule makes by the same model, from its least heat to its most, MPa. */
  readonly bySchedule: { readonly leastHeat: Judged; readonly asSet: Judged; readonly mostHeat: Judged };
}

/** The quench is over here; what it cost is `quenchStrength`, °C. */
const QUENCHED_C = 150;
/** An hour more at the hottest it was tells on which side of its peak metal is, s. */
const PROBE_S = 3600;

/**
 * Yield at each load sensor by a strength model, and how that stands to what the schedule makes by the same model:
 * metal below the schedule's own range is under-aged where more time would harden it, over-aged where it would
 * soften it. Model and schedule are compared with each other, so the model's own error cancels in the word, not in
 * the number.
 * @throws TemperbookError for a chart without an age, or without a load sensor.
 */
export function temperMade(check: ChartCheck, yieldAfterQuench: YieldAfterQuench): TemperMade {
  const { schedule, sensors, quench, stages } = check;
  const age = schedule.ages[schedule.ages.length - 1];
  const loads = sensors.filter(({ role, history }) => role === 'load' && history.timeS.length > 1);
  if (!age || loads.length === 0 || !stages.some(({ kind }) => kind === 'age'))
    throw new TemperbookError('The chart shows no ageing of a load sensor', {
      found: check.sentence,
      remedy: 'Give the chart of the ageing, and say which sensors sit in the load',
    });
  const waitH = check.quenchToAgeS ? check.quenchToAgeS.nominal / 3600 : undefined;
  const planned = (corner: 'least heat' | 'as set' | 'most heat') =>
    yieldAfterQuench(
      scheduledHistory(schedule, { corner, fromQuench: true, ...(waitH === undefined ? {} : { waitH }) }),
    );
  const bySchedule = {
    leastHeat: planned('least heat'),
    asSet: planned('as set'),
    mostHeat: planned('most heat'),
  };
  const lowest = Math.min(...Object.values(bySchedule).map(({ nominal }) => nominal));
  return {
    bySchedule,
    sensors: loads.map(({ name, history: whole }) => {
      const immersed = quench?.sensors.find(({ sensor }) => sensor === name)?.immersed;
      const fromS = immersed ? quenchedS(whole, immersed.high) : whole.timeS[0]!;
      const history = slice(whole, fromS, whole.timeS[whole.timeS.length - 1]!);
      const yieldMPa = yieldAfterQuench(history);
      const more =
        yieldAfterQuench(join([history, isothermal(peak(history).tempC, PROBE_S)])).nominal -
        yieldMPa.nominal;
      const blind = (history.gapAfter?.length ?? 0) > 0;
      const word = blind
        ? 'cannot tell'
        : yieldMPa.nominal >= lowest
          ? 'as the schedule'
          : more > 0
            ? 'under-aged'
            : 'over-aged';
      return {
        sensor: name,
        history,
        yieldMPa,
        word,
        because: blind
          ? 'part of the ageing was not recorded'
          : `${yieldMPa.nominal.toFixed(0)} MPa; the schedule makes ${lowest.toFixed(0)} MPa or more by the same model; an hour more at the hottest it was ${more > 0 ? 'adds' : 'takes'} ${Math.abs(more).toFixed(0)} MPa`,
      };
    }),
  };
}

function quenchedS({ timeS, tempC }: ThermalHistory, fromS: number): number {
  let i = 0;
  while (i + 1 < timeS.length && (timeS[i]! < fromS || tempC[i]! > QUENCHED_C)) i++;
  return timeS[i]!;
}
