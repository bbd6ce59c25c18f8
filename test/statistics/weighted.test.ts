import { describe, expect, it } from 'vitest';
import { weightedQuantiles } from '../../lib/statistics';
import { fc } from '../setup/fc';

/** The definition, worked out by sorting everything: straight lines between the middles of the weights. */
function bySorting(values: readonly number[], weights: readonly number[], wantedShare: number): number {
  const rows = values.map((value, i) => ({ value, weight: weights[i]! })).filter(({ weight }) => weight > 0);
  rows.sort((a, b) => a.value - b.value);
  const wanted = wantedShare * rows.reduce((sum, { weight }) => sum + weight, 0);
  const middles = rows.map(
    ({ weight }, i) => rows.slice(0, i).reduce((sum, row) => sum + row.weight, 0) + weight / 2,
  );
  const i = middles.findIndex((middle) => middle >= wanted);
  if (i < 0) return rows[rows.length - 1]!.value;
  if (i === 0) return rows[0]!.value;
  const share = (wanted - middles[i - 1]!) / (middles[i]! - middles[i - 1]!);
  return rows[i - 1]!.value + share * (rows[i]!.value - rows[i - 1]!.value);
}

describe('weighted quantiles', () => {
  // Sixteenths, so that sums of weights are exact and the definition leaves nothing to rounding.
  const weight = fc.integer({ min: 0, max: 64 }).map((n) => n / 16);
  const value = fc.oneof(
    fc.double({ min: -10, max: 10, noNaN: true }),
    fc.integer({ min: -2, max: 2 }),
    fc.double({ min: -1e9, max: 1e9, noNaN: true }),
  );
  /** Straight lines between values up to 1e9 round to about so much. */
  const ROUNDING = 1e-6;
  const sample = fc.array(fc.tuple(value, weight), { minLength: 1, maxLength: 300 });

  it('are those of the definition, with ties, with values that weigh nothing, and with far outliers', () => {
    fc.assert(
      fc.property(sample, fc.integer({ min: 0, max: 64 }), (rows, sixtyFourths) => {
        fc.pre(rows.some(([, one]) => one > 0));
        const values = rows.map(([one]) => one);
        const weights = rows.map(([, one]) => one);
        const share = sixtyFourths / 64;
        const [found] = weightedQuantiles(Float64Array.from(values), [share], Float64Array.from(weights));
        expect(Math.abs(found! - bySorting(values, weights, share))).toBeLessThanOrEqual(ROUNDING);
      }),
    );
  });

  it('of equal weights are those of plain values', () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 300 }), (list) => {
        const values = Float64Array.from(list);
        const shares = [0, 0.05, 0.25, 0.5, 0.95, 1];
        const weighted = weightedQuantiles(values, shares, new Float64Array(values.length).fill(2));
        weightedQuantiles(values, shares).forEach((plain, i) => {
          expect(Math.abs(weighted[i]! - plain)).toBeLessThanOrEqual(ROUNDING);
        });
      }),
    );
  });

  it('take what never ends for a value', () => {
    const values = Float64Array.of(3, Number.POSITIVE_INFINITY, 1, 2, Number.POSITIVE_INFINITY);
    const ones = new Float64Array(5).fill(1);
    expect(weightedQuantiles(values, [0.1, 0.5, 0.95], ones)).toEqual([1, 3, Number.POSITIVE_INFINITY]);
  });
});
