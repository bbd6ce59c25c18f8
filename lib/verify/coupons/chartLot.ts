import { type AlloyCard, loadAlloy, startTemper } from '../../alloy';
import type { ChartCheck, TemperMade } from '../../heattreat';
import { membersHash } from '../../kinetics';
import { TemperbookError } from '../../quantity';
import { weightedQuantile } from '../../statistics';
import { drawMetals, type LotWeights, MOST_DRAWS } from '../../strength';

/** A card's band is taken as 5 to 95 %: standard deviations between its ends. */
const BAND_SDS = 3.29;
/** However well the ageing is known, composition and casting leave at least this share of the band's spread. */
const LEAST_SHARE = 0.5;

/** What a furnace chart made of the yield before the heat, against its schedule. */
export interface ChartFinding {
  /** Name of the schedule it was held against. */
  readonly schedule: string;
  /** What the chart came to, in a sentence. */
  readonly sentence: string;
  /** Yield at the weakest load sensor over that of the schedule as set: the median of plausible metals. */
  readonly ofSchedule: number;
  /** By how much the schedule's own range, least heat to most, moves the yield, MPa. */
  readonly rangeMPa: number;
}

/** @throws TemperbookError for a chart on which no sensor's ageing can be told. */
export function chartFinding(
  { schedule, sentence }: Pick<ChartCheck, 'schedule' | 'sentence'>,
  { sensors, bySchedule }: TemperMade,
): ChartFinding {
  const told = sensors.filter(({ word }) => word !== 'cannot tell');
  if (told.length === 0)
    throw new TemperbookError('The chart does not tell how this lot was aged', {
      found: sensors.map(({ sensor, because }) => `${sensor}: ${because}`).join('; '),
      expected: 'a load sensor recorded throughout',
    });
  return {
    schedule: schedule.name,
    sentence,
    ofSchedule: Math.min(...told.map(({ ofSchedule }) => weightedQuantile(ofSchedule, 0.5))),
    rangeMPa: Math.abs(bySchedule.mostHeat.nominal - bySchedule.leastHeat.nominal),
  };
}

/**
 * What a furnace chart says of its lot: the yield before the heat of parts of this temper is normal about that of the card;
 * of parts aged as the chart shows it is normal about the card's times what the chart made of it over the schedule as set
 * (the weakest load sensor), and scatters less by what the schedule's own range from its least heat to its most would
 * add. Each plausible metal weighs by the ratio of the two at its own start.
 *
 * Source: importance weights; JCGM 101:2008, 6.4. That at least half of the spread stays is judgement.
 * @throws TemperbookError for an unknown alloy or temper.
 */
export function chartLot(
  name: string,
  { alloy, temper }: { readonly alloy: AlloyCard | string; readonly temper: string },
  { ofSchedule, rangeMPa }: ChartFinding,
): LotWeights {
  const card = loadAlloy(alloy);
  const { value, low, high } = startTemper(card, temper).entry.yieldMPa;
  const sd = (high - low) / BAND_SDS;
  const leftSd = Math.max(LEAST_SHARE * sd, Math.sqrt(Math.max(0, sd ** 2 - (rangeMPa / BAND_SDS) ** 2)));
  const made = value * ofSchedule;
  const { metals } = drawMetals({ alloy: card, temper }, MOST_DRAWS);
  const logs = Float64Array.from(
    metals,
    ({ startYieldMPa: y }) => ((y - value) / sd) ** 2 / 2 - ((y - made) / leftSd) ** 2 / 2,
  );
  const most = logs.reduce((a, b) => Math.max(a, b));
  return {
    name,
    membersHash: membersHash(),
    weights: logs.map((log) => Math.exp(log - most)),
    because: [
      `By its chart this lot yields at about ${made.toFixed(0)} MPa before the heat (${(made - 1.645 * leftSd).toFixed(0)} to ${(made + 1.645 * leftSd).toFixed(0)}).`,
    ],
  };
}
