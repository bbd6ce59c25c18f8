import { TemperbookError } from './error';

/** A list with at least `least` entries. @throws TemperbookError for anything else. */
export function requireList<T>(given: readonly T[], what: string, least = 0): readonly T[] {
  if (Array.isArray(given) && given.length >= least) return given;
  throw new TemperbookError(`${what} are missing`, {
    found: Array.isArray(given) ? `${given.length}` : given === null ? 'null' : `a ${typeof given}`,
    expected: least > 0 ? `a list of at least ${least}` : 'a list',
  });
}
