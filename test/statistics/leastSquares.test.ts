import { describe, expect, it } from 'vitest';
import { TemperbookError } from '../../lib/quantity';
import { leastSquares } from '../../lib/statistics';
import { fc } from '../setup/fc';

const x = Float64Array.from({ length: 12 }, (_, i) => i / 2);
const wiggle = [0.3, -0.2, 0.1, 0.4, -0.5, 0.2, -0.1, -0.3, 0.5, -0.2, 0.1, -0.3];
const y = x.map((t, i) => 2 + 3 * t + wiggle[i]!);
const line = (b: Float64Array) => x.map((t, i) => y[i]! - b[0]! - b[1]! * t);

describe('leastSquares', () => {
  it('gives the textbook answer of a straight line: values, standard errors, correlation', () => {
    const n = x.length;
    const mean = x.reduce((s, t) => s + t, 0) / n;
    const sxx = x.reduce((s, t) => s + (t - mean) ** 2, 0);
    const slope = x.reduce((s, t, i) => s + (t - mean) * y[i]!, 0) / sxx;
    const level = y.reduce((s, t) => s + t, 0) / n - slope * mean;
    const rss = x.reduce((s, t, i) => s + (y[i]! - level - slope * t) ** 2, 0);
    const fit = leastSquares(line, [
      { name: 'level', start: 100 },
      { name: 'slope', start: -50 },
    ]);
    expect(fit.unknowns[0]!.value).toBeCloseTo(level, 8);
    expect(fit.unknowns[1]!.value).toBeCloseTo(slope, 8);
    expect(fit.unknowns[1]!.standardError).toBeCloseTo(Math.sqrt(rss / (n - 2) / sxx), 8);
    expect(fit.unknowns[0]!.standardError).toBeCloseTo(
      Math.sqrt((rss / (n - 2)) * (1 / n + mean ** 2 / sxx)),
      8,
    );
    expect(fit.correlation[0]![1]).toBeCloseTo(-mean / Math.sqrt(sxx / n + mean ** 2), 8);
    expect(fit.residualSumOfSquares).toBeCloseTo(rss, 10);
  });

  it('weighs a prior against readings as the product of two normal distributions', () => {
    const readings = [4.2, 5.1, 4.7];
    const fit = leastSquares(
      (b) => Float64Array.from(readings, (r) => (r - b[0]!) / 0.5),
      [{ name: 'mean', start: 0, prior: { value: 3, standardError: 0.4 } }],
      { noise: 'unit' },
    );
    const precision = 3 / 0.5 ** 2 + 1 / 0.4 ** 2;
    expect(fit.unknowns[0]!.value).toBeCloseTo((14 / 0.5 ** 2 + 3 / 0.4 ** 2) / precision, 9);
    expect(fit.unknowns[0]!.standardError).toBeCloseTo(1 / Math.sqrt(precision), 9);
    expect(fit.residuals).toHaveLength(3);
  });

  it('stays inside bounds, says which bound holds, and still moves the others', () => {
    const fit = leastSquares(line, [
      { name: 'level', start: 0, low: -5, high: 1 },
      { name: 'slope', start: 0, low: 0, high: 10 },
    ]);
    expect(fit.unknowns[0]).toMatchObject({ value: 1, atBound: 'high' });
    const sxx = x.reduce((s, t) => s + t * t, 0);
    expect(fit.unknowns[1]!.value).toBeCloseTo(x.reduce((s, t, i) => s + t * (y[i]! - 1), 0) / sxx, 8);
    expect(fit.unknowns[1]!.atBound).toBeUndefined();
  });

  it('never asks the model for anything outside the bounds', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (start, truth) => {
          const asked: number[] = [];
          const fit = leastSquares(
            (b) => {
              asked.push(b[0]!);
              return x.map((t) => Math.exp(truth * t) - Math.exp(b[0]! * t));
            },
            [{ name: 'rate', start, low: 0, high: 1 }],
          );
          expect(Math.min(...asked)).toBeGreaterThanOrEqual(0);
          expect(Math.max(...asked)).toBeLessThanOrEqual(1);
          expect(fit.unknowns[0]!.value).toBeCloseTo(Math.min(Math.max(truth, 0), 1), 5);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('names the unknowns that only their product determines', () => {
    const fit = leastSquares(
      (b) => x.map((t, i) => y[i]! - b[0]! * b[1]! * t - b[2]!),
      [
        { name: 'power', start: 1 },
        { name: 'efficiency', start: 1 },
        { name: 'level', start: 0 },
      ],
    );
    expect(fit.undetermined).toEqual(['power', 'efficiency']);
    expect(fit.unknowns[0]!.standardError).toBe(Infinity);
    expect(fit.unknowns[2]!.standardError).toBeLessThan(1);
    expect(fit.correlation.flat().every(Number.isFinite)).toBe(true);
  });

  it('turns back from where the model gives no number', () => {
    const fit = leastSquares(
      (b) => x.map((t) => Math.sqrt(0.5 * t) - Math.sqrt(b[0]! * t)),
      [{ name: 'a', start: 40 }],
    );
    expect(fit.unknowns[0]!.value).toBeCloseTo(0.5, 6);
  });

  it('reaches the same place with one-sided derivatives of a coarse step, in fewer runs', () => {
    const curve = (b: Float64Array) => x.map((t, i) => y[i]! - b[0]! * Math.exp(b[1]! * t));
    const unknowns = [
      { name: 'a', start: 3 },
      { name: 'k', start: 0.2 },
    ];
    const fine = leastSquares(curve, unknowns, { tolerance: 1e-4 });
    const coarse = leastSquares(
      curve,
      unknowns.map((u) => ({ ...u, derivativeStep: 1e-3 })),
      { tolerance: 1e-4 },
    );
    expect(coarse.unknowns[1]!.value).toBeCloseTo(fine.unknowns[1]!.value, 4);
    expect(coarse.evaluations).toBeLessThan(fine.evaluations);
  });

  describe('with a derivative that is kept', () => {
    const at = (b: ArrayLike<number>, t: number) =>
      b[0]! * Math.exp(-b[1]! * t) + b[2]! * Math.exp(-b[3]! * t) + b[4]!;
    const cooled = x.map((t, i) => at([60, 2, 40, 0.3, 20], t) + 0.4 * wiggle[i]!);
    const decay = (b: Float64Array) => x.map((t, i) => (cooled[i]! - at(b, t)) / 0.12);
    const unknowns = [
      { name: 'quick', start: 50, derivativeStep: 1e-3 },
      { name: 'per s', start: 1.6, derivativeStep: 1e-3 },
      { name: 'slow', start: 50, derivativeStep: 1e-3 },
      { name: 'per s, slow', start: 0.4, derivativeStep: 1e-3 },
      { name: 'end', start: 22, derivativeStep: 1e-3, prior: { value: 20, standardError: 1 } },
    ];
    const each = leastSquares(decay, unknowns, { noise: 'unit', tolerance: 1e-4 });
    const kept = leastSquares(decay, unknowns, { noise: 'unit', withinErrors: 0.1, derivative: 'kept' });

    it('ends within the errors asked for, in fewer runs', () => {
      for (const [j, { value, standardError }] of each.unknowns.entries()) {
        expect(Math.abs(kept.unknowns[j]!.value - value)).toBeLessThan(0.1 * standardError);
        // The derivative is that of a place within a standard error, where these curves bend by a few per cent.
        expect(kept.unknowns[j]!.standardError / standardError).toBeCloseTo(1, 1);
      }
      expect(kept.evaluations).toBeLessThan(each.evaluations);
    });

    it('goes on from the derivative of a fit before it, and ends where that did', () => {
      const again = leastSquares(
        decay,
        kept.unknowns.map(({ value }, j) => ({ ...unknowns[j]!, start: value })),
        { noise: 'unit', withinErrors: 0.1, derivative: 'kept', derived: kept.derived },
      );
      expect(again.evaluations).toBeLessThanOrEqual(2);
      for (const [j, { value }] of each.unknowns.entries())
        expect(Math.abs(again.unknowns[j]!.value - value)).toBeLessThan(
          0.1 * each.unknowns[j]!.standardError,
        );
    });

    it('is not misled by one that was wrong', () => {
      const { jacobian, values } = kept.derived;
      const wrong = { values, jacobian: jacobian.clone().mul(-1) };
      const fit = leastSquares(decay, unknowns, {
        noise: 'unit',
        withinErrors: 0.1,
        derivative: 'kept',
        derived: wrong,
      });
      for (const [j, { value, standardError }] of each.unknowns.entries())
        expect(Math.abs(fit.unknowns[j]!.value - value)).toBeLessThan(0.1 * standardError);
    });
  });

  it('reports a stop that is not convergence', () => {
    const fit = leastSquares(
      (b) => x.map((t) => Math.exp(-0.3 * t) - Math.exp(b[0]! * t)),
      [{ name: 'k', start: 2 }],
      {
        maxIterations: 1,
      },
    );
    expect(fit.converged).toBe(false);
    expect(fit.ending).toContain('1 iterations');
  });

  it.each([
    ['no unknowns', () => leastSquares(line, []), /at least one unknown/],
    [
      'more unknowns than readings',
      () =>
        leastSquares(
          () => Float64Array.of(1),
          [
            { name: 'a', start: 1 },
            { name: 'b', start: 1 },
          ],
        ),
      /fewer readings than unknowns/,
    ],
    [
      'a start outside its bounds',
      () => leastSquares(line, [{ name: 'level', start: 3, low: 0, high: 1 }]),
      /starting value of level/,
    ],
    [
      'a prior outside its bounds',
      () =>
        leastSquares(line, [
          { name: 'level', start: 1, low: 0, high: 2, prior: { value: 60, standardError: 5 } },
          { name: 'slope', start: 1 },
        ]),
      /prior value of level.*60.*0 to 2/,
    ],
    ['closed bounds', () => leastSquares(line, [{ name: 'level', start: 1, low: 1, high: 1 }]), /no room/],
    [
      'a model without a number at the start',
      () => leastSquares(() => Float64Array.of(Number.NaN, 1), [{ name: 'a', start: 1 }]),
      /no number at the starting values/,
    ],
    [
      'a prior against unknown noise',
      () => leastSquares(line, [{ name: 'a', start: 1, prior: { value: 1, standardError: 1 } }]),
      /unknown noise/,
    ],
  ])('says what is wrong with %s', (_, run, message) => {
    expect(run).toThrow(TemperbookError);
    expect(run).toThrow(message);
  });
});
