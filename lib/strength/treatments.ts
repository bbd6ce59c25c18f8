import { type AlloyCard, findTemper } from '../alloy';
import { isothermal, type ThermalHistory } from '../history';
import { type SofteningTrajectory, softeningModel } from '../kinetics';
import { formatDuration, formatTemp, type Judged, TemperbookError } from '../quantity';
import { keptAfterReageing, keptAfterRest, keptAtEnd } from './afterWelding';

/** What may be done with the part after welding, in the order of effort. */
export type Treatment = 'asWelded' | 'rested' | 'reaged';
/** All of them, in the order of effort. */
export const TREATMENTS: readonly Treatment[] = ['asWelded', 'rested', 'reaged'];

/** Welding and what follows, for one alloy and temper. */
export interface Treated {
  readonly run: (history: ThermalHistory) => SofteningTrajectory;
  readonly kept: (end: SofteningTrajectory) => Record<Treatment, Judged>;
  readonly names: Readonly<Record<Treatment, string>>;
}

/** The treatments as the card gives them. @throws TemperbookError when it has no ageing practice for the temper. */
export function treated(card: AlloyCard, temper: string): Treated {
  const { tempC, timeS } = ageingPractice(card, temper);
  const ageing = isothermal(tempC, timeS);
  const model = softeningModel(card);
  return {
    run: (history) => model.advance(model.start(temper), history),
    kept: (end) => ({
      asWelded: keptAtEnd(end),
      rested: keptAfterRest(end.state, card),
      reaged: keptAfterReageing(end.state, card, ageing),
    }),
    names: {
      asWelded: 'as welded',
      rested: 'after three weeks',
      reaged: `aged again ${formatDuration(timeS)} at ${formatTemp(tempC)}`,
    },
  };
}

/** How a temper is aged, by its card. @throws TemperbookError when the card does not say. */
export function ageingPractice(
  card: AlloyCard,
  temper: string,
): { readonly tempC: number; readonly timeS: number } {
  const { name, entry } = findTemper(card, temper);
  if (entry.ageing) return { tempC: entry.ageing.tempC.value, timeS: entry.ageing.timeS.value };
  throw new TemperbookError(`${card.designation} has no ageing practice for this temper`, {
    found: name,
    remedy: 'Choose an artificially aged temper, or add the practice to your own card',
  });
}
