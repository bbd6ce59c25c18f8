import { describe, expect, it } from 'vitest';
import { plausibleMetals } from '../../../lib/kinetics';
import { goneAfter, rateAt, rateClock } from '../../../lib/kinetics/metals/arrhenius';
import { isOneStep, stepCount } from '../../../lib/kinetics/metals/stepCount';
import { fc } from '../../setup/fc';

const METALS = ['6061', 'A356.0'].flatMap((alloy) => plausibleMetals(alloy, 'T6', 4).metals);

describe('steps of an interval', () => {
  it('are one where that is told without asking, whatever the metal and its solute', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...METALS),
        fc.constantFrom('none', 'aged', 'soluble'),
        fc.double({ min: -20, max: 650, noNaN: true }),
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.double({ min: 0.05, max: 600, noNaN: true }),
        (metal, solute, startC, rise, spanS) => {
          const fastest = rateAt(metal.ageing, metal.agesFastestC);
          const steps = stepCount(metal, rateClock(metal.ageing), fastest, startC, rise, spanS, solute);
          if (isOneStep(rise, spanS, fastest)) expect(steps).toBe(1);
          expect(steps).toBeGreaterThanOrEqual(1);
        },
      ),
    );
    const [metal] = METALS;
    const fastest = rateAt(metal!.ageing, metal!.agesFastestC);
    expect(stepCount(metal!, rateClock(metal!.ageing), fastest, 180, 0, 36_000, 'soluble')).toBeGreaterThan(
      1,
    );
    expect(isOneStep(0, 36_000, fastest)).toBe(false);
  });
});

describe('what a decay takes', () => {
  // 1 − e⁻ˣ of the run-time library; the series leaves out x⁵/720 of the whole at 0.01, 1.4e-13, and rounding.
  it('is the same by series as by the exponential', () => {
    for (const x of [0, 1e-12, 1e-6, 1e-3, 0.00999, 0.01, 0.5, 30])
      expect(Math.abs(goneAfter(x) + Math.expm1(-x))).toBeLessThanOrEqual(2e-13 * -Math.expm1(-x));
  });
});
