import { describe, expect, it } from 'vitest';
import { censoredResidual, logNormalProbability } from '../../lib/statistics';
import { fc } from '../setup/fc';

describe('logNormalProbability', () => {
  // Tables of the standard normal distribution, and its tail by mpmath to 12 digits.
  it.each([
    [0, Math.log(0.5)],
    [-1.6448536269514722, Math.log(0.05)],
    [1.959963984540054, Math.log(0.975)],
    [-3, -6.60772622151035],
    [-10, -53.2312851505125],
    [-40, -804.608442013754],
    [5, -2.86651612963764e-7],
  ])('at %d', (z, expected) => {
    expect(Math.abs(logNormalProbability(z) / expected - 1)).toBeLessThan(1e-11);
  });

  it('joins its two formulas without a step', () => {
    for (const z of [-3, 3])
      expect(Math.abs(logNormalProbability(z - 1e-9) / logNormalProbability(z + 1e-9) - 1)).toBeLessThan(
        1e-7,
      );
  });

  it('rises everywhere', () => {
    const z = fc.double({ min: -50, max: 30, noNaN: true });
    fc.assert(
      fc.property(z, z, (a, b) => {
        expect(logNormalProbability(Math.min(a, b))).toBeLessThanOrEqual(
          logNormalProbability(Math.max(a, b)),
        );
      }),
    );
  });
});

describe('censoredResidual', () => {
  it('is the plain residual for a value', () => {
    expect(censoredResidual(0.8, 'value', 0.9, 0.05)).toBeCloseTo(2, 12);
  });

  it('is nearly 0 well on the right side of a bound and grows like the distance on the wrong side', () => {
    expect(censoredResidual(1.0, 'atLeast', 0.8, 0.05)).toBeLessThan(0.01);
    expect(censoredResidual(0.6, 'below', 0.8, 0.05)).toBeGreaterThan(-0.01);
    expect(censoredResidual(0.3, 'atLeast', 0.8, 0.05)).toBeGreaterThan(10);
    expect(censoredResidual(1.3, 'below', 0.8, 0.05)).toBeLessThan(-10);
  });

  it('is worth half the probability on the bound itself: √(2 ln 2)', () => {
    expect(censoredResidual(0.8, 'atLeast', 0.8, 0.05)).toBeCloseTo(Math.sqrt(2 * Math.LN2), 12);
  });
});
