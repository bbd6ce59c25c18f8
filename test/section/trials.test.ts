import { describe, expect, it } from 'vitest';
import {
  COUPONS,
  couponStrength,
  couponsNeeded,
  insideTried,
  proofLoadChance,
  proofLoadLikelihood,
  stripBendLikelihood,
  stripBendRadiusMm,
  stripBendStrain,
} from '../../lib/section';
import { normalProbability } from '../../lib/statistics';
import { fc } from '../setup/fc';

const held = { stressMPa: 100, stressUncertaintyFraction: 0.05, outcome: 'held' } as const;

describe('a proof load as a reading', () => {
  it('has the closed form of two log-normals', () => {
    const { likelihood, speaksOf } = proofLoadLikelihood(held);
    expect(speaksOf).toBe('yield');
    expect(likelihood(100)).toBeCloseTo(0.5, 9);
    expect(likelihood(110)).toBeCloseTo(normalProbability(Math.log(1.1) / 0.05), 12);
    // Chance that it holds: strength over stress is log-normal with both doubts in square.
    const chance = proofLoadChance(held, { medianMPa: 110, uncertaintyFraction: 0.12 }, 105);
    const exact = normalProbability(Math.log(1.1) / Math.hypot(0.12, 0.05));
    expect(chance.ofOutcome).toBeCloseTo(exact, 4);
    expect(chance.before).toBeCloseTo(normalProbability(Math.log(110 / 105) / 0.12), 9);
  });

  it('held never lowers the chance, set never raises it, and a low load says next to nothing', () => {
    fc.assert(
      fc.property(
        fc.record({
          stressMPa: fc.double({ min: 60, max: 120, noNaN: true }),
          medianMPa: fc.double({ min: 80, max: 130, noNaN: true }),
          uncertaintyFraction: fc.double({ min: 0.05, max: 0.3, noNaN: true }),
          doubt: fc.double({ min: 0.02, max: 0.15, noNaN: true }),
        }),
        ({ stressMPa, medianMPa, uncertaintyFraction, doubt }) => {
          const belief = { medianMPa, uncertaintyFraction };
          const reading = { stressMPa, stressUncertaintyFraction: doubt };
          const chanceOf = (outcome: 'held' | 'set') => proofLoadChance({ ...reading, outcome }, belief, 85);
          // The sum over 2000 steps parts from the exact chance by up to one step's weight.
          const slack = 3e-3;
          if (proofLoadLikelihood({ ...reading, outcome: 'held' }).likelihood(medianMPa) > 1e-3)
            expect(chanceOf('held').after).toBeGreaterThanOrEqual(chanceOf('held').before - slack);
          if (proofLoadLikelihood({ ...reading, outcome: 'set' }).likelihood(medianMPa) > 1e-3)
            expect(chanceOf('set').after).toBeLessThanOrEqual(chanceOf('set').before + slack);
        },
      ),
    );
    const low = proofLoadChance({ ...held, stressMPa: 30 }, { medianMPa: 92, uncertaintyFraction: 0.15 }, 85);
    expect(Math.abs(low.after - low.before)).toBeLessThan(3e-3);
    expect(proofLoadLikelihood(held).provesNot.join(' ')).toMatch(/fatigue.*soft casting passes/);
  });

  it('refuses what cannot be', () => {
    expect(() => proofLoadLikelihood({ ...held, outcome: 'fine' as never })).toThrow(/held, set or broke/);
    expect(() => proofLoadLikelihood({ ...held, stressMPa: 1379 })).toThrow(/1 to 700/);
    expect(() =>
      proofLoadChance({ ...held, stressMPa: 400 }, { medianMPa: 90, uncertaintyFraction: 0.05 }, 85),
    ).toThrow(/could not have happened/);
  });
});

describe('strip bend', () => {
  it('strain of the outer fibre and its radius are each other’s inverse', () => {
    expect(stripBendStrain(3, 25)).toBeCloseTo(3 / 53, 12);
    expect(stripBendStrain(3, stripBendRadiusMm(3, 0.08))).toBeCloseTo(0.08, 12);
  });
  it('bounds the yield between two loads', () => {
    const strip = {
      widthMm: 20,
      thicknessMm: 3,
      spanMm: 60,
      lastWithoutSetN: 200,
      firstWithSetN: 280,
      stressUncertaintyFraction: 0.05,
    };
    const { stressMPa, likelihood } = stripBendLikelihood(strip);
    // 3 F L/(2 b t²) = 3 × 200 × 60/(2 × 20 × 9)
    expect(stressMPa[0]).toBeCloseTo(100, 9);
    expect(stressMPa[1]).toBeCloseTo(140, 9);
    expect(likelihood(110)).toBeGreaterThan(0.95);
    expect(likelihood(40)).toBeLessThan(1e-6);
    expect(likelihood(200)).toBeLessThan(1e-6);
    expect(() => stripBendLikelihood({ ...strip, firstWithSetN: 150 })).toThrow(/below one that left none/);
  });
});

describe('coupons', () => {
  it('count on mean − k s: five coupons, k 3.407 (NBS Handbook 91, 90 % with 95 %)', () => {
    const found = couponStrength([150, 156, 161, 148, 155]);
    expect(found.toleranceFactor).toBeCloseTo(3.407, 3);
    expect(found.characteristicMPa).toBeCloseTo(154 - found.toleranceFactor * Math.sqrt(106 / 4), 9);
    expect(() => couponStrength([150])).toThrow(/shows no scatter/);
  });
  it('says how many are needed, and that some scatter no number cures', () => {
    const n = couponsNeeded({ meanMPa: 154, standardDeviationMPa: 5 }, 140)!;
    expect(couponsNeeded({ meanMPa: 154, standardDeviationMPa: 5 }, 145)).toBeGreaterThan(n);
    expect(couponsNeeded({ meanMPa: 154, standardDeviationMPa: 12 }, 145)).toBeNull();
    expect(COUPONS.map(({ least }) => least).every((least) => least > 0)).toBe(true);
  });
  it('tells inside from outside what was tried', () => {
    const tried = [
      { thicknessMm: 3, interpassC: 40, filler: '4043' },
      { thicknessMm: 5, interpassC: 80, filler: '4043' },
    ];
    expect(insideTried({ thicknessMm: 4, interpassC: 60, filler: '4043' }, tried).inside).toBe(true);
    const odd = insideTried({ thicknessMm: 6, filler: '4047', operator: 'B' }, tried);
    expect(odd.outside.map(({ name }) => name)).toEqual(['thicknessMm', 'filler', 'operator', 'interpassC']);
  });
});
