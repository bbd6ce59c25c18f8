import { describe, expect, it } from 'vitest';
import { bestStretch, stretchTo, stretchToPeak } from '../../../lib/validation/trust/clockFactor';
import { STRETCHES, UNSTRETCHED } from '../../../lib/validation/trust/stretchedAnswers';
import { fc } from '../../setup/fc';

const line = (of: (stretch: number) => number): Float64Array => STRETCHES.map(of);
const factors = fc.double({ min: 0.05, max: 20, noNaN: true });

describe('the grid of stretches', () => {
  it('runs from 1/32 to 32 with 1 in the middle', () => {
    expect(STRETCHES[0]).toBeCloseTo(1 / 32, 12);
    expect(STRETCHES[UNSTRETCHED]).toBe(1);
    expect(STRETCHES[STRETCHES.length - 1]).toBeCloseTo(32, 12);
  });
});

describe('stretchTo', () => {
  it('finds where a falling line reaches a value', () => {
    // Straight between steps of 5.9 %: (0.059)²/8 of the curvature, below 0.1 %.
    fc.assert(
      fc.property(factors, (factor) => {
        const kept = line((s) => 1 / (1 + s / factor));
        expect(stretchTo(kept, 0.5)! / factor).toBeCloseTo(1, 3);
      }),
    );
  });

  it('takes the crossing nearest to 1 of a line that rises and falls', () => {
    const rise = line((s) => s * Math.exp(-s / 2));
    const first = stretchTo(rise, 0.5)!;
    expect(first * Math.exp(-first / 2)).toBeCloseTo(0.5, 3);
    expect(first).toBeLessThan(2);
  });

  it('is null where the line never gets there', () => {
    expect(
      stretchTo(
        line(() => 0.9),
        0.8,
      ),
    ).toBeNull();
  });
});

describe('stretchToPeak', () => {
  it('finds the top between the steps', () => {
    fc.assert(
      fc.property(factors, (factor) => {
        const hump = line((s) => -(Math.log(s / factor) ** 2));
        expect(stretchToPeak(hump)! / factor).toBeCloseTo(1, 9);
      }),
    );
  });

  it('is null where the line only rises or only falls', () => {
    expect(stretchToPeak(line((s) => s))).toBeNull();
    expect(stretchToPeak(line((s) => -s))).toBeNull();
  });
});

describe('bestStretch', () => {
  it('finds the factor that several facts share, and how sure it is: σ/√n in ln t', () => {
    const [factor, sigma, n] = [4, 0.4, 4];
    const squares = Array.from({ length: n }, () => line((s) => (Math.log(s / factor) / sigma) ** 2));
    const clock = bestStretch(squares)!;
    // Read off the grid: half a step, 3 %, either way, and a whole one for the ends.
    expect(Math.abs(clock.nominal! / factor - 1)).toBeLessThan(0.03);
    expect(Math.abs(Math.log(clock.high! / factor) - sigma / Math.sqrt(n))).toBeLessThan(0.06);
    expect(Math.abs(Math.log(factor / clock.low!) - sigma / Math.sqrt(n))).toBeLessThan(0.06);
  });

  it('leaves an end open that the facts leave open, and says nothing without facts', () => {
    const oneSided = bestStretch([line((s) => Math.max(0, Math.log(s / 3) / 0.2) ** 2)])!;
    expect(oneSided.low).toBeNull();
    expect(oneSided.nominal).toBeNull();
    expect(oneSided.high).toBeGreaterThan(3);
    expect(oneSided.high).toBeLessThan(4);
    expect(bestStretch([])).toBeNull();
  });
});
