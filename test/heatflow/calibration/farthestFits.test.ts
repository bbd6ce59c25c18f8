import { describe, expect, it } from 'vitest';
import { type Calibration, farthestFits } from '../../../lib/heatflow';
import { judged } from '../../../lib/quantity';
import { fc } from '../../setup/fc';

type Names = 'a' | 'b';

/** A fit as `calibrateToLog` returns it, with what `farthestFits` reads. */
function fitWith(r: number, errors: readonly [number, number], bound = Number.POSITIVE_INFINITY) {
  const values = { a: 10, b: 1 };
  const band = (value: number, error: number) =>
    judged(value, [value - 2 * error, Math.min(bound, value + 2 * error)], '1', []);
  const fit: Calibration<Names> = {
    names: ['a', 'b'],
    values: { a: band(values.a, errors[0]), b: band(values.b, errors[1]) },
    standardErrors: { a: errors[0], b: errors[1] },
    correlation: [
      [1, r],
      [r, 1],
    ],
    clockOffsetsS: [],
    channels: [],
    passes: [],
    warnings: [],
    converged: true,
    modelRuns: 0,
  };
  return fit;
}

describe('farthestFits', () => {
  it('hold the covariance of the fit: half the way between a pair, multiplied and summed, is (2σ)² r', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        (r, ea, eb) => {
          const pairs = farthestFits(fitWith(r, [ea, eb]));
          const away = pairs.map(([less, more]) => [(more.a - less.a) / 2, (more.b - less.b) / 2] as const);
          const sum = (i: 0 | 1, j: 0 | 1) => away.reduce((s, d) => s + d[i] * d[j], 0);
          expect(sum(0, 0)).toBeCloseTo(4 * ea * ea, 9);
          expect(sum(1, 1)).toBeCloseTo(4 * eb * eb, 9);
          expect(sum(0, 1)).toBeCloseTo(4 * r * ea * eb, 9);
        },
      ),
    );
  });

  it('moves together what the log cannot tell apart', () => {
    const pairs = farthestFits(fitWith(-1, [2, 0.1]));
    for (const [less, more] of pairs)
      expect((more.a - less.a) * (more.b - less.b)).toBeLessThanOrEqual(1e-12);
  });

  it('stays within the bounds of the fit', () => {
    for (const pair of farthestFits(fitWith(0.3, [2, 0.5], 10.5)))
      for (const { a, b } of pair) {
        expect(a).toBeLessThanOrEqual(10.5);
        expect(b).toBeLessThanOrEqual(2);
      }
  });

  it('refuses a value that the log does not determine', () => {
    expect(() => farthestFits(fitWith(0, [Number.POSITIVE_INFINITY, 1]))).toThrow(/does not determine a/);
  });
});
