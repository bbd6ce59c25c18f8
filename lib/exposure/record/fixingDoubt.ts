import type { ThermalHistory } from '../../history';
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
