import { requireNumber } from '../quantity';

/** Primes whose square roots carry the dimensions of the sequence. */
const PRIMES = [
  2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101, 103,
  107, 109,
];

/** How many dimensions `evenSpread` has. */
export const EVEN_SPREAD_DIMENSIONS = PRIMES.length;

/**
 * Member `index` of a low-discrepancy sequence in one of its dimensions, in [0, 1): frac(1/2 + (i + 1) √p), p the
 * dimension's prime. The square roots of primes are independent over the rationals, so the points fill the cube of
 * all dimensions evenly; a longer sample goes on where a shorter one ended.
 *
 * Range: index from 0 to a million, where rounding still leaves nine digits.
 * Source: Richtmyer (1951), in Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods, SIAM 1992, ch. 3.
 * @throws TemperbookError on an index or a dimension outside its range.
 * @example evenSpread(0, 0) // 0.91421
 */
export function evenSpread(index: number, dimension: number): number {
  requireNumber(Number.isInteger(index) ? index : Number.NaN, 'Number of a draw', { low: 0, high: 1e6 });
  const prime = PRIMES[dimension];
  const x = 0.5 + (index + 1) * Math.sqrt(requireNumber(prime ?? Number.NaN, 'Dimension of a draw'));
  return x - Math.floor(x);
}
