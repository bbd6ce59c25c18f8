import { type AlloyCard, shopLimit } from '../alloy';
import { acrossDraws, type Exposure, timeAbove } from '../exposure';
import type { ThermalHistory } from '../history';
import { judged } from '../quantity';
import { weightedQuantiles } from '../statistics';
import type { LimitCheck } from './verdict';

/** A limit to check: the shop's own, or one of the alloy card's that apply to any reading. */
export interface PeakLimit {
  readonly name: string;
  readonly limitC: number;
  readonly known: LimitCheck['known'];
  readonly meaning: string;
}

/** What the limit is called that was given with the job. */
export const YOUR_LIMIT = 'your limit';

/**
 * The limits for a channel, the shop's first: the given one ('440F', or °C), else the card's first limit on peak
 * temperature.
 * @throws TemperbookError as `shopLimit`.
 */
export function limitsFor(card: AlloyCard, given?: number | string): PeakLimit[] {
  const fromCard = card.limits
    .filter(({ applies }) => applies === 'peak' || applies === 'melting')
    .map(({ name, limitC, meaning }) => ({ name, limitC: limitC.value, known: limitC.known, meaning }));
  if (given === undefined) return fromCard;
  const shop: PeakLimit = {
    name: YOUR_LIMIT,
    limitC: shopLimit(given),
    known: 'practice',
    meaning: 'The limit you gave for this job.',
  };
  return [shop, ...fromCard.filter(({ known }) => known !== 'practice')];
}

/** Checks one limit against the record as read and what the metal may have seen. */
export function checkLimit(
  { name, limitC, known, meaning }: PeakLimit,
  asRead: ThermalHistory,
  exposure: Exposure,
): LimitCheck {
  const nominal = timeAbove(asRead, limitC);
  const times = acrossDraws(exposure, (history) => timeAbove(history, limitC));
  return {
    name,
    limitC,
    known,
    crossed: nominal > 0,
    timeAboveS: judged(nominal, weightedQuantiles(times, [0.05, 0.95]), 's', [
      'From the record as read; the band is what the metal under the probe may have seen (5 to 95 %).',
    ]),
    meaning,
  };
}
