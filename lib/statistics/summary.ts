import { mean as meanOf, sampleStandardDeviation } from 'simple-statistics';
import { TemperbookError } from '../quantity';

/**
 * Mean of at least one value. simple-statistics sums with Neumaier's compensation, so the mean of the NIST StRD
 * sets is right to the last digit their values carry.
 * @throws TemperbookError on no value, or one that is not a number.
 */
export function mean(values: ArrayLike<number>): number {
  return meanOf(finite(values, 1));
}

/**
 * Standard deviation of at least two values, n − 1 in the divisor. simple-statistics takes two passes, so the only
 * digits lost are those the readings lose by being stored in double precision: 8 digits are left for
 * NIST's NumAcc4, whose values differ in the eighth (test/published).
 * @throws TemperbookError on fewer than two values, or one that is not a number.
 */
export function standardDeviation(values: ArrayLike<number>): number {
  return sampleStandardDeviation(finite(values, 2));
}

/** The values as an array, or a clear error naming the first that is not a number. */
export function finite(values: ArrayLike<number>, atLeast: number, what = 'A statistic'): number[] {
  const list = Array.from(values);
  const bad = list.findIndex((value) => !Number.isFinite(value));
  if (list.length < atLeast || bad >= 0)
    throw new TemperbookError(`${what} cannot be worked out from these values`, {
      found: bad >= 0 ? `${list[bad]} as value ${bad + 1}` : `${list.length} values`,
      expected: `at least ${atLeast} finite number${atLeast === 1 ? '' : 's'}`,
    });
  return list;
}
