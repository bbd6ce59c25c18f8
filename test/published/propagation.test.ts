import { describe, expect, it } from 'vitest';
import { multipleAt, type Spread } from '../../lib/exposure';
import { evenSpread, weightedQuantiles } from '../../lib/statistics';

/** Draws as the kit makes them: each input in a dimension of its own of the low-discrepancy sequence. */
const draw = (count: number, inputs: readonly Spread[], of: (x: number[]) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) =>
    of(inputs.map((spread, dimension) => multipleAt(spread, evenSpread(i, dimension)))),
  );
const sum = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0);
const interval = (values: Float64Array): number[] => weightedQuantiles(values, [0.025, 0.975]);
const rectangular: Spread = { shape: 'even', low: -Math.sqrt(3), high: Math.sqrt(3) };

/**
 * The quantile of M random draws has the standard error √(p (1 − p)/M)/f(q), f the density there. JCGM 101 used a million
 * random draws; a low-discrepancy sequence does better than random, so three errors of random draws bound ours.
 */
const threeErrors = (count: number, densityAtQuantile: number): number =>
  (3 * Math.sqrt((0.025 * 0.975) / count)) / densityAtQuantile;
const COUNT = 4000;

describe('propagation of distributions, JCGM 101:2008', () => {
  it('9.2.2: four standard normals add up to 0 with [−3.92, 3.92]', () => {
    const normal: Spread = { shape: 'normal', mean: 0, sd: 1 };
    const [low, high] = interval(draw(COUNT, [normal, normal, normal, normal], sum));
    // Density of a normal of standard deviation 2 at 1.96 of them: 0.0292.
    const tolerance = threeErrors(COUNT, 0.0292);
    expect(Math.abs(low! + 3.92)).toBeLessThan(tolerance);
    expect(Math.abs(high! - 3.92)).toBeLessThan(tolerance);
  });

  it('9.2.3: four rectangular inputs of the same standard deviation have [−3.88, 3.88]', () => {
    const [low, high] = interval(draw(COUNT, [rectangular, rectangular, rectangular, rectangular], sum));
    const tolerance = threeErrors(COUNT, 0.0292);
    expect(Math.abs(low! + 3.88)).toBeLessThan(tolerance);
    expect(Math.abs(high! - 3.88)).toBeLessThan(tolerance);
  });

  it('9.2.4: one of them ten times as wide: [−17.0, 17.0], where squares would say 19.8', () => {
    const wide: Spread = { shape: 'even', low: -10 * Math.sqrt(3), high: 10 * Math.sqrt(3) };
    const [low, high] = interval(draw(COUNT, [rectangular, rectangular, rectangular, wide], sum));
    // Density of the wide rectangle, 1/(20 √3), near its end.
    const tolerance = threeErrors(COUNT, 1 / (20 * Math.sqrt(3)));
    expect(Math.abs(low! + 17)).toBeLessThan(tolerance);
    expect(Math.abs(high! - 17)).toBeLessThan(tolerance);
  });
});
