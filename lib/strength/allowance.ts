import { requireNumber } from '../quantity';

/** Yield loss that is accepted unless somebody says otherwise, fraction. */
export const DEFAULT_ALLOWANCE = 0.1;

/**
 * The yield loss that is accepted, as a fraction; a tenth where nothing is given.
 * @throws TemperbookError for anything but 0 to 1.
 */
export function allowanceOf(given: number | undefined): number {
  return requireNumber(given ?? DEFAULT_ALLOWANCE, 'Allowed loss of yield (as a fraction, 0.1 for 10 %)', {
    low: 0,
    high: 1,
  });
}
