import type { ThermalHistory } from '../../history';
import { formatPercent, formatTemp } from '../../quantity';
import { type Attachment, attachmentError } from '../../thermocouple';
import type { Doubt } from '../exposure';

/**
 * What the fixing of a probe leaves open: a junction reads low by a fraction f of the metal's rise above the air, so the
 * metal is hotter than read by f/(1 − f) of the reading's rise. f is spread over its band, piled up at its likely value.
 */
export function fixingDoubt({ tempC }: ThermalHistory, attachment: Attachment, ambientC: number): Doubt {
  const { low, value, high } = attachmentError(attachment);
  const perRise = (f: number): number => f / (1 - f);
  return {
    kind: 'fixing',
    of: 'a probe that reads low by its fixing',
    spread: { shape: 'peaked', low: perRise(low), likely: perRise(value), high: perRise(high) },
    shiftK: tempC.map((temp) => Math.max(0, temp - ambientC)),
  };
}

/** What the fixing does to the peak, in a sentence. */
export function fixingSentence(attachment: Attachment, topC: number, ambientC: number): string {
  const { low, high } = attachmentError(attachment);
  const hottestC = topC + (high / (1 - high)) * Math.max(0, topC - ambientC);
  return `${OPENING}${typeof attachment === 'string' ? attachment : 'as given by the shop'}" reads low by ${formatPercent(low, 1)} to ${formatPercent(high, 1)} of the rise above the air: the peak read as ${formatTemp(topC)} may be up to ${formatTemp(hottestC)}.`;
}

const OPENING = 'The fixing "';

/** Whether a sentence is `fixingSentence`. */
export const isFixingSentence = (sentence: string): boolean => sentence.startsWith(OPENING);
