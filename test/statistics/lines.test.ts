import { describe, expect, it } from 'vitest';
import { TemperbookError } from '../../lib/quantity';
import { mean, seededRandom, standardDeviation, straightLine, theilSen } from '../../lib/statistics';
import { fc } from '../setup/fc';

const coefficient = fc.double({ min: -100, max: 100, noNaN: true });

describe('theilSen and straightLine', () => {
  it('both find an exact line', () => {
    fc.assert(
      fc.property(coefficient, coefficient, (slope, intercept) => {
        const x = [1, 2, 4, 7, 11];
        const y = x.map((value) => intercept + slope * value);
        for (const line of [theilSen(x, y), straightLine(x, y)]) {
          expect(line.slope).toBeCloseTo(slope, 9);
          expect(line.intercept).toBeCloseTo(intercept, 9);
        }
      }),
    );
  });

  it('theilSen does not mind wild points, straightLine does', () => {
    const x = Array.from({ length: 20 }, (_, i) => i);
    const y = x.map((value) => 3 + 2 * value);
    for (const i of [2, 9, 15, 18]) y[i] = 500;
    expect(theilSen(x, y).slope).toBeCloseTo(2, 9);
    expect(Math.abs(straightLine(x, y).slope - 2)).toBeGreaterThan(1);
  });

  it('their intervals hold the true slope as often as they say', () => {
    const random = seededRandom(31);
    const x = Array.from({ length: 15 }, (_, i) => i);
    const runs = 1000;
    let inside = 0;
    let squares = 0;
    for (let run = 0; run < runs; run++) {
      const y = x.map((value) => 2 * value + random.normal());
      const [low, high] = theilSen(x, y, 0.9).slopeInterval;
      if (low <= 2 && 2 <= high) inside++;
      const line = straightLine(x, y);
      squares += ((line.slope - 2) / line.slopeStandardError) ** 2;
    }
    // Four standard errors of a share of 0.9, and 0.015 for ranks that come in steps.
    expect(Math.abs(inside / runs - 0.9)).toBeLessThan(4 * Math.sqrt(0.09 / runs) + 0.015);
    // (slope − 2)/u is Student's t with 13 degrees of freedom: variance 13/11, of its mean square over 1000 about 0.07.
    expect(Math.abs(squares / runs - 13 / 11)).toBeLessThan(0.28);
  });

  it('refuse too little', () => {
    expect(() => theilSen([1], [2])).toThrow(TemperbookError);
    expect(() => theilSen([1, 1], [2, 3])).toThrow(/different x/);
    expect(() => theilSen([1, 2], [2])).toThrow(TemperbookError);
    expect(() => straightLine([1, 2], [2, 3])).toThrow(TemperbookError);
    expect(() => straightLine([1, 1, 1], [2, 3, 4])).toThrow(TemperbookError);
    expect(() => straightLine([1, 2, 3], [2, Number.NaN, 4])).toThrow(/value 2/);
  });
});

describe('mean and standardDeviation', () => {
  it('shift with the values and do not depend on their order', () => {
    fc.assert(
      fc.property(fc.array(coefficient, { minLength: 2, maxLength: 50 }), coefficient, (values, shift) => {
        const shifted = values.map((value) => value + shift);
        expect(mean(shifted)).toBeCloseTo(mean(values) + shift, 9);
        expect(standardDeviation(shifted)).toBeCloseTo(standardDeviation(values), 9);
        expect(standardDeviation([...values].reverse())).toBeCloseTo(standardDeviation(values), 9);
      }),
    );
  });

  it('take typed arrays and refuse too little', () => {
    expect(mean(Float64Array.of(1, 2, 6))).toBe(3);
    expect(standardDeviation(Float64Array.of(1, 3))).toBeCloseTo(Math.SQRT2, 15);
    expect(() => mean([])).toThrow(TemperbookError);
    expect(() => standardDeviation([1])).toThrow(TemperbookError);
    expect(() => mean([1, Number.NaN])).toThrow(/NaN as value 2/);
  });
});
