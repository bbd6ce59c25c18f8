import { TemperbookError } from '../quantity';
import type { AlloyCard } from './alloyCard';
import { listAlloys, loadAlloy } from './loadAlloy';
import { parseMetal } from './parseMetal';

/** One metal that a part may be, with its share of the whole. */
export interface MetalAlternative {
  readonly card: AlloyCard;
  readonly temper: string;
  /** All of them add up to 1. */
  readonly weight: number;
  readonly because: string;
}

/**
 * What a part may be, from words that leave it open: "like 356", "like 356, temper not known", "A356-T6 or A356-T7",
 * "6061, temper not known". "Like" takes in every alloy of that family; a temper that is not said takes in every temper of
 * the card, none of them preferred. Nobody knows shares, so all alternatives weigh alike until a reading tells.
 * @throws TemperbookError where no alloy is named, and as `loadAlloy`.
 */
export function metalAlternatives(words: string): MetalAlternative[] {
  const isLike = /^\s*like\s/i.test(words);
  const plain = words
    .replace(/^\s*like\s+/i, '')
    .replace(
      /[,;]?\s*\(?(alloy|temper)?\s*(is\s+)?(not known|unknown|not sure|no idea|who knows|\?)\)?\s*/gi,
      ' ',
    )
    .replace(/[-,\s]+$/, '')
    .trim();
  const found = plain.split(/\s+or\s+/i).flatMap((one) => ofOne(one, isLike));
  const kinds = [...new Map(found.map((one) => [`${one.card.designation}-${one.temper}`, one])).values()];
  const weight = 1 / kinds.length;
  return kinds.map(({ card, temper }) => ({
    card,
    temper,
    weight,
    because: `one of ${kinds.length} that "${words.trim()}" leaves open, all weighed alike`,
  }));
}

function ofOne(words: string, isLike: boolean): { readonly card: AlloyCard; readonly temper: string }[] {
  const { alloy, temper } = parseMetal(words || ' ');
  if (alloy === undefined)
    throw new TemperbookError('No alloy is named', {
      found: `"${words}"`,
      expected: 'an alloy it may be like, such as "like 356"',
      remedy: `Cast or wrought is told by eye; the kit knows ${listAlloys().join(', ')}`,
    });
  const named = loadAlloy(alloy);
  const cards = isLike
    ? listAlloys()
        .map(loadAlloy)
        .filter(({ family }) => family === named.family)
    : [named];
  return cards.flatMap((card) =>
    temper === undefined
      ? Object.keys(card.tempers).map((name) => ({ card, temper: name }))
      : Object.hasOwn(card.tempers, temper) || card === named
        ? [{ card, temper }]
        : [],
  );
}
