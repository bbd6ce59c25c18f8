import type { AlloyCard, TemperEntry } from './alloyCard';
import { findTemper } from './findTemper';

/** A temper a part can start from; what only tempers of the card have may be missing. */
export interface StartTemper {
  readonly name: string;
  readonly entry: Pick<TemperEntry, 'yieldMPa'> & Partial<TemperEntry>;
}

/** Whether a temper is written as W: freshly quenched, which changes by the day and stands on no card. */
export const isQuenched = (temper: string): boolean =>
  typeof temper === 'string' && temper.trim().toUpperCase() === 'W';

/**
 * The temper a part starts from: one of the card's (`findTemper`), or 'W', freshly quenched, with the yield of metal whose
 * particles are all dissolved.
 * @throws TemperbookError naming the tempers of the card.
 */
export function startTemper(card: AlloyCard, temper: string): StartTemper {
  return isQuenched(temper)
    ? { name: 'W', entry: { yieldMPa: card.dissolution.floorYieldMPa, underAged: false } }
    : findTemper(card, temper);
}
