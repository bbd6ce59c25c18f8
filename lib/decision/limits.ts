import type { AlloyCard } from '../alloy';
import { acrossDraws, type Exposure, timeAbove } from '../exposure';
import type { ThermalHistory } from '../history';
import { celsiusOf, formatTemp, judged, TemperbookError } from '../quantity';
import { weightedQuantiles } from '../statistics';
import type { LimitCheck } from './verdict';

/** A limit to check: the shop's own, or one of the alloy card's that apply to any reading. */
export interface PeakLimit {
  readonly name: string;
  readonly limitC: number;
  readonly known: LimitCheck['known'];
  readonly meaning: string;
}

/** No shop limits aged aluminium to more than this: a higher number is °F that nobody named, °C. */
const HIGHEST_LIMIT_C = 300;

/**
 * The limits for a channel, the shop's first: the given one ('440F', or °C), else the card's first limit on peak
 * temperature.
 * @throws TemperbookError on a limit that is no temperature, or so high that °F was probably meant.
 */
export function limitsFor(card: AlloyCard, shopLimit?: number | string): PeakLimit[] {
  const fromCard = card.limits
    .filter(({ applies }) => applies === 'peak' || applies === 'melting')
    .map(({ name, limitC, meaning }) => ({ name, limitC: limitC.value, known: limitC.known, meaning }));
  if (shopLimit === undefined) return fromCard;
  const limitC = celsiusOf(shopLimit, 'limitC');
  if (limitC > HIGHEST_LIMIT_C)
    throw new TemperbookError('This limit is too hot for aged aluminium', {
      found: `limitC ${shopLimit}, which is ${formatTemp(limitC)}`,
      expected: `at most ${formatTemp(HIGHEST_LIMIT_C)}`,
      ...(typeof shopLimit === 'number' ? { remedy: `If you mean °F, write '${shopLimit}F'` } : {}),
    });
  const shop: PeakLimit = {
    name: 'your limit',
    limitC,
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
