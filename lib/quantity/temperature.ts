import { TemperbookError } from './error';
import { fahrenheitToCelsius } from './units';

/**
 * A temperature as people write it, in °C: a number is °C already; '440F', '440 °F', '227C', '227 °C' say their unit.
 * @throws TemperbookError for a word without a unit, and anything else.
 * @example celsiusOf('440F', 'limitC') // 226.67
 */
export function celsiusOf(given: unknown, name: string): number {
  if (typeof given === 'number' && Number.isFinite(given)) return given;
  const [, number, unit] = /^\s*([-−]?\d+(?:[.,]\d+)?)\s*°?\s*([CF])\s*$/i.exec(String(given)) ?? [];
  if (typeof given !== 'string' || number === undefined || unit === undefined)
    throw new TemperbookError(`${name} is not a temperature`, {
      found: typeof given === 'string' ? `"${given}"` : String(given),
      expected: "degrees Celsius as a number, or a temperature with its unit such as '440F' or '227 °C'",
    });
  const value = Number(number.replace('−', '-').replace(',', '.'));
  return unit.toUpperCase() === 'F' ? fahrenheitToCelsius(value) : value;
}

/**
 * A difference of temperatures as people write it, in K: a number is K already; '±5F', '3 °C', '5 K' say their unit.
 * @throws TemperbookError for a word without a unit, and anything else.
 * @example kelvinsOf('±9F', 'toK') // 5
 */
export function kelvinsOf(given: unknown, name: string): number {
  if (typeof given === 'number' && Number.isFinite(given)) return given;
  const [, number, unit] =
    /^\s*(?:±|\+\/?[-−])?\s*(\d+(?:[.,]\d+)?)\s*°?\s*([CFK])\s*$/i.exec(String(given)) ?? [];
  if (typeof given !== 'string' || number === undefined || unit === undefined)
    throw new TemperbookError(`${name} is not a difference of temperatures`, {
      found: typeof given === 'string' ? `"${given}"` : String(given),
      expected: "kelvins as a number, or with its unit such as '±5F' or '3 °C'",
    });
  return Number(number.replace(',', '.')) / (unit.toUpperCase() === 'F' ? 1.8 : 1);
}
