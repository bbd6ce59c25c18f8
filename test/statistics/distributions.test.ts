import { describe, expect, it } from 'vitest';
import { TemperbookError } from '../../lib/quantity';
import {
  conformityProbability,
  guardFactor,
  normalProbability,
  normalQuantile,
  seededRandom,
  toleranceFactor,
  tProbability,
  tQuantile,
} from '../../lib/statistics';
import { fc } from '../setup/fc';

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('normalProbability and normalQuantile', () => {
  it('undo each other', () => {
    fc.assert(
      fc.property(within(1e-15, 0.5), (p) => {
        expect(Math.abs(normalProbability(normalQuantile(p)) / p - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('are symmetric, rising, and smooth where series and fraction meet', () => {
    fc.assert(
      fc.property(within(-8, 8), (z) => {
        expect(normalProbability(z) + normalProbability(-z)).toBeCloseTo(1, 14);
        expect(normalProbability(z + 0.01)).toBeGreaterThanOrEqual(normalProbability(z));
      }),
    );
    const atMeeting = normalProbability(-2 - 1e-9) / normalProbability(-2 + 1e-9);
    // φ(2)/Φ(−2) = 2.373, over 2e-9.
    expect(atMeeting).toBeCloseTo(1 - 2.373 * 2e-9, 11);
  });

  it('refuse what is no probability', () => {
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(TemperbookError);
    expect(() => normalProbability(Number.NaN)).toThrow(TemperbookError);
  });
});

describe('tProbability and tQuantile', () => {
  it('have the closed forms of one, two and four degrees of freedom', () => {
    fc.assert(
      fc.property(within(-20, 20), (t) => {
        expect(tProbability(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 11);
        expect(tProbability(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 11);
        const s = t / Math.sqrt(4 + t * t);
        expect(tProbability(t, 4)).toBeCloseTo(0.5 + 0.75 * (s - s ** 3 / 3), 11);
      }),
      { numRuns: 30 },
    );
  });

  it('become normal with many degrees of freedom, shifted by the noncentrality', () => {
    // Leading difference: z(z² + 1)/(4 ν) φ(z), here 1e-6.
    expect(tProbability(1.5, 1e6, 0)).toBeCloseTo(normalProbability(1.5), 6);
    expect(tProbability(3.5, 1e6, 2)).toBeCloseTo(normalProbability(1.5), 5);
  });

  it('noncentral at 0 is Φ(−δ), whatever the degrees of freedom', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), within(-6, 6), (dof, noncentrality) => {
        expect(tProbability(0, dof, noncentrality)).toBeCloseTo(normalProbability(-noncentrality), 11);
      }),
    );
  });

  it('undo each other', () => {
    fc.assert(
      fc.property(
        within(0.001, 0.999),
        fc.integer({ min: 1, max: 100 }),
        within(-10, 10),
        (p, dof, noncentrality) => {
          expect(tProbability(tQuantile(p, dof, noncentrality), dof, noncentrality)).toBeCloseTo(p, 9);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('refuse no degrees of freedom', () => {
    expect(() => tProbability(1, 0)).toThrow(TemperbookError);
    expect(() => tQuantile(2, 5)).toThrow(TemperbookError);
  });
});

describe('toleranceFactor', () => {
  it('keeps its promise on simulated lots', () => {
    const promise = { readings: 6, content: 0.9, confidence: 0.95 };
    const k = toleranceFactor(promise);
    const random = seededRandom(6);
    const lots = 20_000;
    let kept = 0;
    for (let lot = 0; lot < lots; lot++) {
      const readings = Array.from({ length: promise.readings }, () => random.normal());
      const mean = readings.reduce((a, b) => a + b, 0) / 6;
      const s = Math.sqrt(readings.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 5);
      if (1 - normalProbability(mean - k * s) >= promise.content) kept++;
    }
    // Four standard errors of a share of 0.95 in 20 000.
    expect(Math.abs(kept / lots - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / lots));
  });

  it('falls with more readings and rises with what is promised', () => {
    const k = (readings: number, content: number, confidence: number) =>
      toleranceFactor({ readings, content, confidence });
    expect(k(20, 0.9, 0.95)).toBeLessThan(k(10, 0.9, 0.95));
    expect(k(10, 0.99, 0.95)).toBeGreaterThan(k(10, 0.9, 0.95));
    expect(k(10, 0.9, 0.99)).toBeGreaterThan(k(10, 0.9, 0.95));
    expect(k(1_000_000, 0.9, 0.95)).toBeCloseTo(normalQuantile(0.9), 2);
  });

  it.each([
    [1, 0.9, 0.95],
    [2.5, 0.9, 0.95],
    [10, 1, 0.95],
    [10, 0.9, 0.2],
    [Number.NaN, 0.9, 0.95],
  ])('refuses %f readings, %f at %f', (readings, content, confidence) => {
    expect(() => toleranceFactor({ readings, content, confidence })).toThrow(TemperbookError);
  });
});

describe('conformityProbability', () => {
  it('of both limits is the sum of neither failing', () => {
    const measured = { value: 540, standardUncertainty: 2, dof: 8 };
    const both = conformityProbability(measured, { lower: 535, upper: 545 });
    const lower = conformityProbability(measured, { lower: 535 });
    const upper = conformityProbability(measured, { upper: 545 });
    expect(both).toBeCloseTo(lower + upper - 1, 12);
    expect(lower).toBeCloseTo(upper, 12);
  });

  it('is what remains of the risk a guard band leaves', () => {
    fc.assert(
      fc.property(within(0.001, 0.5), fc.constantFrom(undefined, 3, 20), (risk, dof) => {
        const value = 90 + 3 * guardFactor(risk, dof);
        const measured = { value, standardUncertainty: 3, ...(dof === undefined ? {} : { dof }) };
        expect(1 - conformityProbability(measured, { lower: 90 })).toBeCloseTo(risk, 8);
      }),
      { numRuns: 50 },
    );
  });

  it('refuses a question without a limit or an uncertainty', () => {
    const measured = { value: 96, standardUncertainty: 3 };
    expect(() => conformityProbability(measured, {})).toThrow(TemperbookError);
    expect(() => conformityProbability(measured, { lower: 10, upper: 5 })).toThrow(TemperbookError);
    expect(() => conformityProbability({ ...measured, standardUncertainty: 0 }, { lower: 90 })).toThrow(
      TemperbookError,
    );
    expect(() => guardFactor(0.6)).toThrow(TemperbookError);
  });
});
