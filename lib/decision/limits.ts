import type { AlloyCard } from '../alloy';
import { timeAbove } from '../exposure';
import type { ThermalHistory } from '../history';
import { judged } from '../quantity';
import type { RecordCases } from '../strength';
import type { LimitCheck } from './verdict';

/** A limit to check: the shop's own, or one of the alloy card's that apply to any reading. */
export interface Limit {
  readonly name: string;
  readonly limitC: number;
  readonly known: LimitCheck['known'];
  readonly meaning: string;
}

/** The limits for a channel, the shop's first: the given one, else the card's first limit on peak temperature. */
export function limitsFor(card: AlloyCard, shopLimitC?: number): Limit[] {
  const fromCard = card.limits
    .filter(({ applies }) => applies === 'peak' || applies === 'melting')
    .map(({ name, limitC, meaning }) => ({ name, limitC: limitC.value, known: limitC.known, meaning }));
  if (shopLimitC === undefined) return fromCard;
  const shop: Limit = {
    name: 'your limit',
    limitC: shopLimitC,
    known: 'practice',
    meaning: 'The limit you gave for this job.',
  };
  return [shop, ...fromCard.filter(({ known }) => known !== 'practice')];
}

/** Checks one limit against the record as read and the coolest and hottest the metal may have been. */
export function checkLimit(
  { name, limitC, known, meaning }: Limit,
  asRead: ThermalHistory,
  { cooler, readLow, unrecorded }: RecordCases,
): LimitCheck {
  const nominal = timeAbove(asRead, limitC);
  return {
    name,
    limitC,
    known,
    crossed: nominal > 0,
    timeAboveS: judged(
      nominal,
      [timeAbove(cooler, limitC), timeAbove(unrecorded?.history ?? readLow, limitC)],
      's',
      ['From the record as read; the band from the coldest to the hottest the metal may have been.'],
    ),
    meaning,
  };
}
