import { TemperbookError } from '../../quantity';

/** The list itself, or a clear error when there is nothing to draw. */
export function requireSome<T>(items: readonly T[], figure: string): readonly T[] {
  if (items.length > 0) return items;
  throw new TemperbookError(`A ${figure} figure needs something to draw`, {
    found: 'an empty list',
    expected: 'at least one entry',
  });
}
