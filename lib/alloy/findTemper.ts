import { TemperbookError } from '../quantity';
import type { AlloyCard, TemperEntry } from './alloyCard';
import { temperName } from './temperName';

/** A temper as the card knows it. */
export interface FoundTemper {
  readonly name: string;
  readonly entry: TemperEntry;
}

/**
 * The card's entry of a temper, whatever the writing ('t6', 'T-6'). The suffixes of stress relief, 51, 510, 511 and
 * 52 (EN 515, ANSI H35.1), say how a part was straightened and not how it was aged: 'T651' and 'T6511' are
 * read as T6, 'T451' as T4, unless the card names them.
 * @throws TemperbookError naming the tempers of the card, and as `temperName`.
 */
export function findTemper(card: AlloyCard, temper: string): FoundTemper {
  const asked = temperName(temper);
  for (const name of [asked, asked.replace(/^(T\d)5(1|10|11|2)$/, '$1')])
    if (Object.hasOwn(card.tempers, name)) return { name, entry: card.tempers[name]! };
  throw new TemperbookError(`${card.designation} has no temper of this name`, {
    found: `"${temper}"`,
    expected: `one of ${Object.keys(card.tempers).join(', ')}`,
  });
}
