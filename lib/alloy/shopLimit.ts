import { celsiusOf, formatTemp, TemperbookError } from '../quantity';

/** No shop limits aged aluminium to more than this: a higher number is °F that nobody named, °C. */
const HIGHEST_C = 300;

/**
 * A shop's limit on the temperature of aged aluminium in °C, from degrees Celsius or a text with its unit ('440F').
 * @throws TemperbookError on a limit that is no temperature, or so high that °F was probably meant.
 * @example shopLimit('440F') // 226.67
 */
export function shopLimit(given: number | string, name = 'limitC'): number {
  const limitC = celsiusOf(given, name);
  if (limitC <= HIGHEST_C) return limitC;
  throw new TemperbookError('This limit is too hot for aged aluminium', {
    found: `${name} ${given}, which is ${formatTemp(limitC)}`,
    expected: `at most ${formatTemp(HIGHEST_C)}`,
    ...(typeof given === 'number' ? { remedy: `If you mean °F, write '${given}F'` } : {}),
  });
}
