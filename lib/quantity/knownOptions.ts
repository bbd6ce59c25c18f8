import { TemperbookError } from './error';
import { nearestName } from './nearestName';

/**
 * Refuses options that a function does not know: a misspelt one would otherwise be passed over in silence.
 * @throws TemperbookError naming the option, with the one that was probably meant; for options that are no object.
 */
export function knownOptions<Options extends object>(
  given: Options,
  known: readonly string[],
  door: string,
): Options {
  if (typeof given !== 'object' || given === null || Array.isArray(given))
    throw new TemperbookError(`The options of ${door} are not an object`, {
      found: Array.isArray(given) ? 'a list' : String(given),
      expected: `an object with ${known.join(', ')}`,
    });
  for (const name of Object.keys(given))
    if (!known.includes(name)) {
      const meant = nearestName(name, known);
      throw new TemperbookError(`${door} does not know this option`, {
        found: `"${name}"`,
        expected: `one of ${known.join(', ')}`,
        ...(meant ? { remedy: `Did you mean "${meant}"?` } : {}),
      });
    }
  return given;
}
