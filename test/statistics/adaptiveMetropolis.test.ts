import { describe, expect, it } from 'vitest';
import {
  adaptiveMetropolis,
  leastSquares,
  mean,
  seededRandom,
  standardDeviation,
} from '../../lib/statistics';

/** y = b0 + b1 x on a few points with unit noise: its flat-prior posterior is the normal of least squares, exactly. */
const x = [0, 1, 2, 3, 5, 8];
const y = [1.2, 0.4, 2.9, 3.1, 4.6, 8.3];
const residuals = (b: ArrayLike<number>): Float64Array =>
  Float64Array.from(x, (at, i) => y[i]! - b[0]! - b[1]! * at);

const DRAWS = 4000;
const chainOf = (seed: number) =>
  adaptiveMetropolis((b) => -residuals(b).reduce((sum, r) => sum + r * r, 0) / 2, {
    start: [0, 0],
    scale: [1, 1],
    warmUp: 5000,
    draws: DRAWS,
    // About the correlation time of a two-dimensional random walk, so that draws are nearly independent.
    every: 20,
    random: seededRandom(seed),
  });

describe('draws of a linear model', () => {
  const chain = chainOf(7);
  const columns = [0, 1].map((k) => chain.draws.map((draw) => draw[k]!));
  const fit = leastSquares(
    residuals,
    [
      { name: 'b0', start: 0 },
      { name: 'b1', start: 0 },
    ],
    { noise: 'unit' },
  );

  // Σx = 19, Σx² = 103, n = 6: the variances are 103/257 and 6/257, the correlation −19/√(6 · 103).
  it.each([
    [0, Math.sqrt(103 / 257)],
    [1, Math.sqrt(6 / 257)],
  ])('unknown %d: mean and standard deviation of the closed form', (k, sd) => {
    // Standard error of the mean of DRAWS draws is sd/63, of their sd sd/89; twice as many draws would be needed if
    // half the draws repeated others, hence 5 of them.
    expect(Math.abs(mean(columns[k]!) - fit.unknowns[k]!.value)).toBeLessThan((5 * sd) / Math.sqrt(DRAWS));
    expect(Math.abs(standardDeviation(columns[k]!) / sd - 1)).toBeLessThan(5 / Math.sqrt(2 * DRAWS));
    expect(fit.unknowns[k]!.standardError).toBeCloseTo(sd, 6);
  });

  it('correlation of the closed form', () => {
    const [a, b] = columns as [number[], number[]];
    const [ma, mb] = [mean(a), mean(b)];
    const together = a.reduce((sum, v, i) => sum + (v - ma) * (b[i]! - mb), 0) / DRAWS;
    const correlation = together / (standardDeviation(a) * standardDeviation(b));
    expect(Math.abs(correlation + 19 / Math.sqrt(6 * 103))).toBeLessThan(5 / Math.sqrt(DRAWS));
  });

  it('the same seed gives the same draws, another seed others', () => {
    expect(chainOf(7).draws[100]).toEqual(chain.draws[100]);
    expect(chainOf(8).draws[100]).not.toEqual(chain.draws[100]);
  });

  it('takes about a quarter of its proposals', () => {
    expect(chain.acceptance).toBeGreaterThan(0.15);
    expect(chain.acceptance).toBeLessThan(0.45);
  });
});
