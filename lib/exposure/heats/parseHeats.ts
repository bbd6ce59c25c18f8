import { celsiusOf, fahrenheitToCelsius, formatTemp, requireNumber, TemperbookError } from '../../quantity';
import { secondsOf } from './secondsOf';

/** One heat as people tell it: what the oven was set to, and for how long. */
export interface Heat {
  /** Set point of the oven, °C. */
  readonly setC: number;
  readonly timeS: number;
  /** How often, one after the other with the part cold in between. */
  readonly times: number;
  /** From when the time counts: from the door, the part cold; or from when the metal itself was at temperature. */
  readonly counted: 'from the door' | 'at metal temperature';
}

/** No heat that leaves solid aluminium in any temper is hotter than this, °C. */
const HOTTEST_C = 600;
const MOST_TIMES = 1000;
const LONGEST_S = 100_000 * 3600;

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const FORM = new RegExp(
  String.raw`^(?:(?<times>\d+)\s*[x×*]\s*)?(?<temp>${NUMBER})\s*°?\s*(?<unit>[CF])?(?:elsius|ahrenheit)?[\s,]+(?:for\s+)?(?<time>[\d.,].*?)(?<metal>\s+(?:at\s+)?(?:metal|part|PMT)(?:\s+temperature)?)?$`,
  'i',
);

/**
 * Heats in words: "390F 1.5h", "8 x 200C 20 min", "350 °F for 4 h; 3 × 200 °C 10 min at metal". Several stand behind one
 * another, parted by a semicolon, "then" or a new line. Time counts from closing the door on a cold part, unless "at metal"
 * says that the metal itself was at temperature.
 * @throws TemperbookError for a temperature or a time without its unit, a temperature at which nothing is left of a part, and
 * anything else, each with what was found and how to write it.
 * @example parseHeats('8 x 390F 1.5h')[0]?.times // 8
 * @example parseHeats('390F 1.5h')[0]?.setC // 198.89
 */
export function parseHeats(text: string): Heat[] {
  if (typeof text !== 'string')
    throw new TemperbookError('A heat is not written in words', { found: String(text), expected: FORMS });
  const parts = text
    .split(/;|\n|\bthen\b/i)
    .map((part) => part.trim())
    .filter(Boolean);
  if (parts.length === 0)
    throw new TemperbookError('No heat is given', { found: `"${text}"`, expected: FORMS });
  return parts.map(heatOf);
}

const FORMS =
  'a temperature and a time, each with its unit, such as "390F 1.5h", "8 x 200C 20min" or "200C 10min at metal"';

function heatOf(words: string): Heat {
  const { times, temp, unit, time, metal } = FORM.exec(words)?.groups ?? {};
  if (temp === undefined || time === undefined)
    throw new TemperbookError('This heat cannot be read', { found: `"${words}"`, expected: FORMS });
  const value = Number(temp.replace(',', '.'));
  if (unit === undefined) throw unitAsked(words, value);
  const setC = celsiusOf(`${value}${unit}`, 'The heat');
  if (setC > HOTTEST_C)
    throw new TemperbookError('No aluminium part stands such a heat', {
      found: `"${words}", which is ${formatTemp(setC)}`,
      expected: `at most ${formatTemp(HOTTEST_C)}`,
      remedy: 'Look for a digit too many, and at the unit',
    });
  return {
    setC,
    timeS: requireNumber(secondsOf(time, words), `The time of "${words}" in s`, { low: 1, high: LONGEST_S }),
    times: requireNumber(Number(times ?? 1), `How often "${words}" was done`, { low: 1, high: MOST_TIMES }),
    counted: metal === undefined ? 'from the door' : 'at metal temperature',
  };
}

function unitAsked(words: string, value: number): TemperbookError {
  return new TemperbookError('Is this heat in °F or °C?', {
    found: `"${words}" without a unit`,
    expected: `"${value}F", which is ${formatTemp(fahrenheitToCelsius(value))}, or "${value}C", which is ${formatTemp(value)}; and a time with its unit`,
  });
}
