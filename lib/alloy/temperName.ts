import { TemperbookError } from '../quantity';

/** A temper as ANSI H35.1 writes them: F, O, W, or T with up to four digits; people put a hyphen or blank before the digits. */
const WRITTEN = /^(?:[FOW]|T[-–\s]?\d{1,4})$/i;

/** Whether a word could be a temper by its form alone. */
export const isTemperWord = (word: string): boolean => WRITTEN.test(word.trim());

/**
 * A temper in its usual writing: 't6', 'T-6' and 'T 6' are T6.
 * @throws TemperbookError for T0, which no standard has: some mean annealed metal, which is O, others metal that is as good
 * as dead soft; and for anything that is no word.
 * @example temperName('T-6') // "T6"
 */
export function temperName(temper: string): string {
  if (typeof temper !== 'string')
    throw new TemperbookError('No temper is given', {
      found: String(temper),
      expected: 'a temper such as T6, T4 or O, or alloy and temper in one word, such as "A356-T6"',
    });
  const name = temper.trim().toUpperCase();
  const plain = isTemperWord(name) ? name.replace(/[-–\s]/g, '') : name;
  if (plain !== 'T0') return plain;
  throw new TemperbookError('There is no temper T0', {
    found: `"${temper}"`,
    expected: 'O (the letter) for metal that was annealed, F for metal as it was cast, T4, T6 …',
    remedy:
      'Ask whoever said it what was done to the metal. Annealed on purpose is O; metal softened by a weld or by long heat is neither: give the temper it had before, and the heat',
  });
}
