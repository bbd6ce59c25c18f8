import { parseNumber } from '../layout/cell';

/** Two lines of one time. */
export const isSameTime = (a: readonly string[], b: readonly string[]): boolean =>
  a.every((part, i) => part === b[i]);

/** Is one time before another? Numbers by their size, stamps by their text, which sorts where all are written alike. */
export function isBefore(a: readonly string[], b: readonly string[]): boolean {
  for (const [i, text] of a.entries()) {
    const other = b[i]!;
    if (text === other) continue;
    const [x, y] = [parseNumber(text, '.'), parseNumber(other, '.')];
    return Number.isNaN(x - y) ? text.length === other.length && text < other : x < y;
  }
  return false;
}
