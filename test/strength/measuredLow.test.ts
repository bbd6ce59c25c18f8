import { describe, expect, it } from 'vitest';
import { isothermal } from '../../lib/history';
import { advanceMetal, plausibleMetals, startOfMetal, WHYS_LOW, yieldOfState } from '../../lib/kinetics';
import { strengthAfter } from '../../lib/strength';
import { fc } from '../setup/fc';

const CASES = [
  ['A356.0', 'T6', 165],
  ['356.0', 'T7', 150],
  ['6061', 'T6', 250],
] as const;

describe('a yield measured low', () => {
  it('starts at what was measured, whatever the reason', () => {
    for (const [alloy, temper, measuredYieldMPa] of CASES)
      for (const metal of plausibleMetals(alloy, temper, 100).metals)
        for (const whyLow of WHYS_LOW) {
          if (measuredYieldMPa >= metal.startYieldMPa) continue;
          const start = startOfMetal(metal, { measuredYieldMPa, whyLow });
          expect(start.startYieldMPa).toBe(measuredYieldMPa);
          expect(yieldOfState(metal, start)).toBeCloseTo(measuredYieldMPa, 6);
          expect(advanceMetal(metal, start, isothermal(20, 60)).yieldKept[1]!).toBeCloseTo(1, 4);
        }
  });

  it('the reasons differ: less aged gains on, over-aged does not', () => {
    const metal = plausibleMetals('A356.0', 'T6', 50).metals.find(
      ({ startYieldMPa }) => startYieldMPa > 190,
    )!;
    const strengthened = (whyLow: (typeof WHYS_LOW)[number]): number =>
      advanceMetal(metal, startOfMetal(metal, { measuredYieldMPa: 170, whyLow }), isothermal(175, 14_400))
        .yieldKept[1]!;
    expect(strengthened('less aged')).toBeGreaterThan(strengthened('porous'));
    expect(strengthened('over-aged')).toBeLessThanOrEqual(1);
  });

  it('never makes later heat look safer than an unstated start', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CASES),
        fc.integer({ min: 150, max: 450 }),
        fc.integer({ min: 1, max: 20_000 }),
        ([alloy, temper, measuredYieldMPa], tempC, timeS) => {
          const options = { draws: 100, endOnly: true };
          const heat = isothermal(tempC, timeS);
          const unstated = strengthAfter(heat, { alloy, temper }, options).draws;
          const low = strengthAfter(heat, { alloy, temper, measuredYieldMPa }, options).draws;
          for (let i = 0; i < 100; i++)
            if (measuredYieldMPa < unstated.startYieldMPa[i]!)
              expect(low.yieldKept[i]!).toBeLessThanOrEqual(unstated.yieldKept[i]! + 1e-9);
        },
      ),
      { numRuns: 40 },
    );
  });
});
