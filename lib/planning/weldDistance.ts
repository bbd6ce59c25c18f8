import { inchesToMm, requireNumber, TemperbookError } from '../quantity';

/**
 * A distance from a weld in words, as mm from its centre line: "12 mm from the centre line", "1 in from the toe". People
 * measure from the toe (the edge of the bead), codes and heat flow from the centre line: half a bead lies between them.
 * @param beadWidthMm needed where the distance is from the toe.
 * @throws TemperbookError where it is not said from which, and where the width of the bead is missing.
 * @example weldDistanceMm('1 in from the toe', 8) // 29.4
 * @example weldDistanceMm('12 mm from the centre line') // 12
 */
export function weldDistanceMm(words: string, beadWidthMm?: number): number {
  const [, number, unit, from] =
    /^\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|in|inch|inches|")\s*(?:from\s+)?(?:the\s+)?(.*)$/i.exec(String(words)) ??
    [];
  if (number === undefined)
    throw new TemperbookError('This distance cannot be read', {
      found: `"${words}"`,
      expected: 'a length with its unit and from where, such as "1 in from the toe"',
    });
  const value = Number(number.replace(',', '.'));
  const lengthMm = unit === 'mm' ? value : unit === 'cm' ? 10 * value : inchesToMm(value);
  if (/cent(er|re)/i.test(from!)) return lengthMm;
  if (!/toe|edge/i.test(from!))
    throw new TemperbookError('From the centre line of the weld, or from its toe?', {
      found: `"${words}"`,
      expected: `"${number} ${unit} from the centre line" or "${number} ${unit} from the toe"`,
      remedy: 'The toe is the edge of the bead; half its width lies between the two',
    });
  if (beadWidthMm === undefined)
    throw new TemperbookError('How wide is the bead?', {
      found: `"${words}"`,
      expected: 'its width in mm, beside a distance from the toe',
    });
  return lengthMm + requireNumber(beadWidthMm, 'The width of the bead in mm', { low: 0, high: 200 }) / 2;
}
