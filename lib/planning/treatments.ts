import { type AlloyCard, startTemper } from '../alloy';
import type { Exposure } from '../exposure';
import { isothermal, type ThermalHistory } from '../history';
import { formatDuration, formatTemp, TemperbookError } from '../quantity';
import { lotDraws, type Metal, ROUTINE_DRAWS, type StrengthAfter, strengthAfter } from '../strength';

/** What may be done with the part after welding, in the order of effort. */
export type Treatment = 'asWelded' | 'rested' | 'reaged';
/** All of them, in the order of effort. */
export const TREATMENTS: readonly Treatment[] = ['asWelded', 'rested', 'reaged'];

/** Three weeks on the shelf: by then most of what comes back at room temperature has come back, s. */
export const THREE_WEEKS_S = 21 * 86_400;
const SHELF_C = 20;

/** Strength after each treatment. */
export type AfterTreatment = Readonly<Record<Treatment, StrengthAfter>>;

/** What is known of a heat before the treatments are asked about. */
export interface BeforeTreatment {
  /** Heats the part had before this one. */
  readonly earlier?: readonly (Exposure | ThermalHistory)[];
  /** What is worked out of this heat already: its draws and their weights go on. */
  readonly asWelded?: StrengthAfter;
}

/**
 * Strength after welding as it is, after three weeks on the shelf, and after ageing again by the card's practice: the same
 * draws of record and metal go on from where the weld left them.
 * @throws TemperbookError when the card has no ageing practice for the temper.
 */
export function afterTreatments(
  welded: Exposure,
  metal: Metal & { readonly alloy: AlloyCard; readonly temper: string },
  allowanceFraction: number,
  { earlier = [], asWelded }: BeforeTreatment = {},
): AfterTreatment {
  const { tempC, timeS } = ageingPractice(metal.alloy, metal.temper);
  const { count: draws } = lotDraws(metal.lots ?? [], ROUTINE_DRAWS);
  const after =
    asWelded ?? strengthAfter(welded, metal, { allowanceFraction, draws, earlier, endOnly: true });
  const going = { allowanceFraction, after };
  return {
    asWelded: after,
    rested: strengthAfter(isothermal(SHELF_C, THREE_WEEKS_S), metal, going),
    reaged: strengthAfter(isothermal(tempC, timeS), metal, going),
  };
}

/** What each treatment is, in words. @throws TemperbookError as `ageingPractice`. */
export function treatmentNames(card: AlloyCard, temper: string): Readonly<Record<Treatment, string>> {
  const { tempC, timeS } = ageingPractice(card, temper);
  return {
    asWelded: 'as welded',
    rested: 'after three weeks',
    reaged: `aged again ${formatDuration(timeS)} at ${formatTemp(tempC)}`,
  };
}

/** How a temper is aged, by its card. @throws TemperbookError when the card does not say. */
export function ageingPractice(
  card: AlloyCard,
  temper: string,
): { readonly tempC: number; readonly timeS: number } {
  const { name, entry } = startTemper(card, temper);
  if (entry.ageing) return { tempC: entry.ageing.tempC.value, timeS: entry.ageing.timeS.value };
  throw new TemperbookError(`${card.designation} has no ageing practice for this temper`, {
    found: name,
    remedy: 'Choose an artificially aged temper, or add the practice to your own card',
  });
}
