import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { refuseProblems, TemperbookError } from '../quantity';
import type { AlloyCard } from './alloyCard';
import { ALLOY_FOLDER } from './alloyFolder';
import { cardProblems } from './cardProblems';
import { whyNoCard } from './withoutCard';

/**
 * The card of an alloy.
 * @param alloy a designation in any usual writing ('A356.0', '356', 'AlSi7Mg0.3', 'EN AW-6061'; case, blanks
 * and hyphens do not matter), the path of a shop's own card file (ends in .json), or a card as an object.
 * @throws TemperbookError when no card answers to the name, when the file cannot be read, or when the card is
 * wrong: then with every problem, each with its place in the card, what was found and what is expected.
 */
export function loadAlloy(alloy: string | AlloyCard): AlloyCard {
  if (typeof alloy !== 'string' && (typeof alloy !== 'object' || alloy === null))
    throw new TemperbookError('No alloy is given by name or card', {
      found: String(alloy),
      expected: `a name in quotes, one of ${listAlloys().join(', ')}, or a card`,
    });
  if (typeof alloy !== 'string') return soundCard(alloy);
  if (/\.json$/i.test(alloy)) return readCard(alloy);
  const card = ownCards().get(plainName(alloy));
  if (card) return card;
  const [, name, temper] = /^(.+)[-\s](F|O|T[-\s]?\d{1,4})$/i.exec(alloy.trim()) ?? [];
  const without = whyNoCard(plainName(name ?? alloy));
  throw new TemperbookError('No alloy card answers to this name', {
    found: `"${alloy}"`,
    expected: `one of ${listAlloys().join(', ')}, another usual name of these, or the path of your own card (a .json file)`,
    remedy: without
      ? `${without}. Measure your own metal and write a card from it`
      : temper
        ? `Give the temper on its own: alloy "${name}", temper "${temper}"`
        : 'Copy a card from data/alloys as a pattern for your own',
  });
}

/** Designations of the cards that come with the kit, in the order of the alphabet. */
export function listAlloys(): readonly string[] {
  return [...new Set([...ownCards().values()].map((card) => card.designation))].sort();
}

let cards: ReadonlyMap<string, AlloyCard> | undefined;
function ownCards(): ReadonlyMap<string, AlloyCard> {
  cards ??= new Map(
    readdirSync(ALLOY_FOLDER)
      .filter((file) => file.endsWith('.json') && !file.endsWith('.schema.json'))
      .map((file) => readCard(path.join(ALLOY_FOLDER, file)))
      .flatMap((card) => [card.designation, ...card.otherNames].map((name) => [plainName(name), card])),
  );
  return cards;
}

const plainName = (name: string): string => name.toLowerCase().replace(/[^a-z0-9.]/g, '');

function readCard(file: string): AlloyCard {
  if (!existsSync(file))
    throw new TemperbookError('No such alloy card file', { file, remedy: 'Check the path' });
  const text = readFileSync(file, 'utf8').replace(/^\uFEFF/, '');
  try {
    return soundCard(JSON.parse(text), file);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const position = Number(/position (\d+)/.exec(error.message)?.[1] ?? text.length);
    const row = text.slice(0, position).split('\n').length;
    throw new TemperbookError('The alloy card is not valid JSON', {
      file,
      row,
      found: error.message,
      remedy: 'Look for a missing comma, quote or bracket at this line or the one before',
    });
  }
}

const sound = new WeakSet<object>();

function soundCard(candidate: unknown, file?: string): AlloyCard {
  if (typeof candidate === 'object' && candidate !== null && sound.has(candidate))
    return candidate as AlloyCard;
  refuseProblems('This alloy card', cardProblems(candidate), {
    ...(file === undefined ? {} : { file }),
    remedy: 'Compare with the cards in data/alloys and with alloy-card.schema.json',
  });
  const card = deepFreeze(structuredClone(candidate) as AlloyCard);
  sound.add(card);
  return card;
}

/** Cards are shared by every model; a changed one must not change the others' answers. */
function deepFreeze<T extends object>(node: T): T {
  for (const child of Object.values(node)) if (typeof child === 'object' && child !== null) deepFreeze(child);
  return Object.freeze(node);
}
