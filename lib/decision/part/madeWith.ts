import { type AlloyCard, cardHash } from '../../alloy';
import { membersHash } from '../../kinetics';

/** What a verdict about these cards rests on: hash by name, "plausible metals" and "card A356.0". */
export function madeWith(cards: readonly AlloyCard[]): Readonly<Record<string, string>> {
  return {
    'plausible metals': membersHash(),
    ...Object.fromEntries(cards.map((card) => [`card ${card.designation}`, cardHash(card)])),
  };
}
