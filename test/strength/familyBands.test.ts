import { describe, expect, it } from 'vitest';
import { isothermal } from '../../lib/history';
import { strengthAfter } from '../../lib/strength';

const metal = { alloy: '6061', temper: 'T6' };

describe('the band with each family alone', () => {
  const answer = strengthAfter(isothermal(260, 120), metal, { draws: 400, endOnly: true });

  it('is of two families that share the draws alike, so that their chances average to the whole', () => {
    expect(answer.families.map(({ name }) => name)).toEqual(['curve', 'delayed']);
    const [a, b] = answer.families.map(({ chance }) => chance);
    expect((a! + b!) / 2).toBeCloseTo(answer.chanceOfRecorded, 12);
  });

  it('lies within what all draws reach', () => {
    for (const { yieldKeptFraction: kept } of answer.families) {
      expect(kept.low).toBeGreaterThanOrEqual(Math.min(...answer.draws.yieldKept));
      expect(kept.high).toBeLessThanOrEqual(Math.max(...answer.draws.yieldKept));
    }
  });

  it('leaves out a family that readings rule out', () => {
    const weightsOf = (draws: typeof answer.draws) =>
      Float64Array.from(draws.metals, ({ family }) => (family === 'curve' ? 1 : 0));
    const { families, chanceOfRecorded } = strengthAfter(isothermal(260, 120), metal, {
      draws: 400,
      endOnly: true,
      weightsOf,
    });
    expect(families.map(({ name }) => name)).toEqual(['curve']);
    expect(families[0]!.chance).toBe(chanceOfRecorded);
  });
});
