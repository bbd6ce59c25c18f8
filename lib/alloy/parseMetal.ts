import { TemperbookError } from '../quantity';
import type { AlloyCard } from './alloyCard';
import { loadAlloy } from './loadAlloy';
import { isTemperWord, temperName } from './temperName';

/** What a few words of the trade say of a metal; the temper is absent where they do not say it. */
export interface MetalWords {
  readonly alloy?: string;
  readonly temper?: string;
}

/** Alloy, then temper after a hyphen or a blank. */
const IN_ONE_WORD = /^(.+?)(?:\s*[-–]\s*|\s+)([FOW]|T[-–\s]?\d{1,4})$/i;

/**
 * Alloy and temper as they are written in one word: 'A356-T6', '6061-T651', 'A356.0 T6', 'T-6', '6061'. The alloy stays as
 * written; `loadAlloy` knows it, or says what it knows.
 * @throws TemperbookError for T0 (`temperName`), and where nothing is written.
 * @example parseMetal('A356-T6') // {"alloy": "A356", "temper": "T6"}
 * @example parseMetal('T-6') // {"temper": "T6"}
 */
export function parseMetal(text: string): MetalWords {
  if (typeof text !== 'string' || text.trim() === '')
    throw new TemperbookError('No metal is given', {
      found: typeof text === 'string' ? 'an empty text' : String(text),
      expected: 'alloy and temper, such as "A356-T6" or "6061-T6"',
    });
  const words = text.trim();
  if (/\.json$/i.test(words)) return { alloy: words };
  if (isTemperWord(words)) return { temper: temperName(words) };
  const [, alloy, temper] = IN_ONE_WORD.exec(words) ?? [];
  return alloy !== undefined && temper !== undefined
    ? { alloy, temper: temperName(temper) }
    : { alloy: words };
}

const UNKNOWN = /\b(not known|unknown|not sure|no idea|who knows)\b|\?/i;

/** Whether words leave open what the metal is. */
export const isOpenMetal = (words: string): boolean =>
  !/\.json$/i.test(words) && (/^\s*like\s/i.test(words) || / or /i.test(words) || UNKNOWN.test(words));

/** A metal whose alloy and temper are both known. */
export interface NamedMetal {
  readonly card: AlloyCard;
  readonly temper: string;
}

/**
 * Card and temper from two options, of which the alloy may carry the temper ('A356-T6').
 * @throws TemperbookError where no temper is said or two, and as `loadAlloy` and `temperName`.
 * @example namedMetal('6061-T6').temper // "T6"
 */
export function namedMetal(alloy: AlloyCard | string, temper?: string): NamedMetal {
  if (typeof alloy === 'string' && isOpenMetal(alloy))
    throw new TemperbookError('These words leave the metal open, and this question is of one metal', {
      found: `"${alloy}"`,
      expected: 'one alloy in one temper, such as "A356-T6"',
      remedy: 'A job, or temperbook review, judges every metal it may be',
    });
  const words = typeof alloy === 'string' ? parseMetal(alloy) : { alloy };
  if (words.alloy === undefined)
    throw new TemperbookError('A temper is given where the alloy is asked', {
      found: `"${String(alloy)}"`,
      expected: 'an alloy, such as A356 or 6061, or alloy and temper in one word, such as "A356-T6"',
    });
  const card = loadAlloy(words.alloy);
  const inWord = 'temper' in words ? words.temper : undefined;
  const asked = temper === undefined ? undefined : temperName(temper);
  if (inWord !== undefined && asked !== undefined && inWord !== asked)
    throw new TemperbookError('Two tempers are given', {
      found: `"${String(alloy)}" and "${temper}"`,
      expected: 'one temper',
    });
  const named = inWord ?? asked;
  if (named !== undefined) return { card, temper: named };
  throw new TemperbookError(`No temper of ${card.designation} is given`, {
    found: 'an alloy alone',
    expected: `one of ${Object.keys(card.tempers).join(', ')}; or alloy and temper in one word, such as "${card.designation.replace(/\.0$/, '')}-T6"`,
    remedy: 'The temper decides what heat can take away: ask, do not guess',
  });
}

/**
 * Options that name a metal, whichever way, with card and temper apart.
 * @throws TemperbookError as `namedMetal`.
 */
export function withMetal<Given extends { readonly alloy: AlloyCard | string; readonly temper?: string }>(
  given: Given,
): Given & { readonly alloy: AlloyCard; readonly temper: string } {
  const { card, temper } = namedMetal(given.alloy, given.temper);
  return { ...given, alloy: card, temper };
}
