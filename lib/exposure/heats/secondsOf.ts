import { TemperbookError } from '../../quantity';

const SECONDS: readonly (readonly [RegExp, number])[] = [
  [/^s(ec(onds?)?)?$/, 1],
  [/^m(in(utes?)?|ins)?$/, 60],
  [/^h((ou)?rs?)?$/, 3600],
  [/^d(ays?)?$/, 86_400],
  [/^w(eeks?)?$/, 604_800],
];

/**
 * A time in words, s: "1.5h", "90 min", "1h30", "1 h 30 min".
 * @param words what it stands in, for the message.
 * @throws TemperbookError for a time without its unit and for anything else.
 */
export function secondsOf(text: string, words: string): number {
  const asked = () =>
    new TemperbookError('This time cannot be read', {
      found: `"${text.trim()}" in "${words}"`,
      expected: 'a number and its unit: "20min", "1.5h", "1h30"',
    });
  const parts = [...text.trim().matchAll(/([\d.,]+)\s*([a-z]*)\s*/gi)];
  if (parts.length === 0 || parts.map(([all]) => all).join('') !== text.trim()) throw asked();
  let sum = 0;
  let before = 0;
  for (const [, number, word] of parts) {
    const value = Number(number!.replace(',', '.'));
    // The bare number after hours is minutes: 1h30.
    const factor =
      word === '' && before === 3600 ? 60 : SECONDS.find(([name]) => name.test(word!.toLowerCase()))?.[1];
    if (factor === undefined || !Number.isFinite(value)) throw asked();
    sum += value * factor;
    before = factor;
  }
  return sum;
}
