import { describe, expect, it } from 'vitest';
import { hardeningLeft, type OverageingShape, peakDoseS, yieldKept } from '../../lib/kinetics';
import { fc } from '../setup/fc';

const falling: OverageingShape = { gain: 0, riseS: 100, softenS: 1000 };
const rising: OverageingShape = { gain: 0.5, riseS: 100, softenS: 10_000 };

/** Shapes that rise before they fall, as the fits give them, and shapes that only fall. */
const shapes = fc.record({
  gain: fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 4, noNaN: true })),
  riseS: fc.double({ min: 50, max: 5000, noNaN: true }),
  softenS: fc.double({ min: 5000, max: 500_000, noNaN: true }),
});
const dose = fc.double({ min: 0, max: 1e8, noNaN: true });

describe('hardeningLeft', () => {
  it('is 1 at the start', () => {
    expect(hardeningLeft(0, falling)).toBe(1);
    expect(hardeningLeft(0, rising)).toBe(1);
  });

  it('halves after 7 coarsening times: r³ has grown eightfold (Lifshitz, Slyozov; Wagner)', () => {
    expect(hardeningLeft(7000, falling)).toBeCloseTo(0.5, 12);
  });

  it('ends on (t/τ)^(−1/3) whatever the gain', () => {
    for (const shape of [falling, rising, { ...rising, gain: 2 }])
      expect(hardeningLeft(1e9, shape) * Math.cbrt(1e9 / shape.softenS)).toBeCloseTo(1, 4);
  });

  it('falls once it has peaked, and never before it', () => {
    fc.assert(
      fc.property(shapes, dose, dose, (shape, a, b) => {
        const top = peakDoseS(shape);
        const [first, second] = a < b ? [a, b] : [b, a];
        const later = hardeningLeft(top + second, shape);
        expect(later).toBeLessThanOrEqual(hardeningLeft(top + first, shape) * (1 + 1e-12));
        const earlier = top * (first / (second || 1));
        expect(hardeningLeft(earlier, shape)).toBeLessThanOrEqual(hardeningLeft(top, shape) * (1 + 1e-12));
      }),
    );
  });
});

describe('peakDoseS', () => {
  it('is 0 for a curve that only falls', () => {
    expect(peakDoseS(falling)).toBe(0);
  });

  it('is 0 when coarsening outruns the rise from the start', () => {
    expect(peakDoseS({ gain: 0.1, riseS: 10_000, softenS: 1000 })).toBe(0);
  });

  it('has no higher point beside it', () => {
    const top = peakDoseS(rising);
    const highest = hardeningLeft(top, rising);
    for (const factor of [0.5, 0.9, 0.99, 1.01, 1.1, 2])
      expect(hardeningLeft(top * factor, rising)).toBeLessThan(highest);
  });
});

describe('yieldKept', () => {
  it('never falls below the floor', () => {
    expect(yieldKept(falling, 0.3, 0)(1e15)).toBeGreaterThan(0.3);
    expect(yieldKept(falling, 0.3, 0)(1e15)).toBeLessThan(0.301);
  });

  it('goes on along the same curve from a temper that has seen some of it', () => {
    const floorMPa = 80;
    const t6 = 200;
    const t7 = t6 * yieldKept(falling, floorMPa / t6, 0)(5000);
    const both = t6 * yieldKept(falling, floorMPa / t6, 0)(12_000);
    expect(t7 * yieldKept(falling, floorMPa / t7, 5000)(7000)).toBeCloseTo(both, 9);
  });
});
