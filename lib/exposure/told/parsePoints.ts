import { celsiusOf, TemperbookError } from '../../quantity';
import { secondsOf } from '../heats/secondsOf';

const FORM = /^(?<time>.*\S)\s+(?<temp>-?\d+(?:\.\d+)?)\s*°?\s*(?<unit>[CF])$/i;

/**
 * Points of a curve as they are typed off a paper chart or read in between: "0min 70F, 12min 395F, 40min 400F". Each a time
 * and a temperature with their units; commas, semicolons or new lines between them.
 * @throws TemperbookError for a point without its units, with the point that was found.
 * @example parsePoints('0min 20C, 1h30 200C').timeS // [0, 5400]
 */
export function parsePoints(words: string): { readonly timeS: number[]; readonly tempC: number[] } {
  const points = words
    .split(/[;,\n]/)
    .map((point) => point.trim())
    .filter(Boolean)
    .map((point) => {
      const { time, temp, unit } = FORM.exec(point)?.groups ?? {};
      if (time === undefined)
        throw new TemperbookError('This point cannot be read', {
          found: `"${point}"`,
          expected: 'a time and a temperature, each with its unit, such as "12min 395F"',
        });
      return { timeS: secondsOf(time, point), tempC: celsiusOf(`${temp}${unit}`, 'The point') };
    });
  return { timeS: points.map(({ timeS }) => timeS), tempC: points.map(({ tempC }) => tempC) };
}
