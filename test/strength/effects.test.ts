import { describe, expect, it } from 'vitest';
import { combineEffects, effect } from '../../lib/strength';

describe('effects of doubts', () => {
  it('are one-sided: what lowers the value does not raise it', () => {
    expect(effect('x', 1, [0.9])).toEqual({ of: 'x', drop: expect.closeTo(0.1, 12), rise: 0 });
    expect(effect('x', 1, [0.9, 1.2])).toMatchObject({ rise: expect.closeTo(0.2, 12) });
  });

  it('add as squares: 3 and 4 make 5', () => {
    const { low, high } = combineEffects(10, [effect('a', 10, [7]), effect('b', 10, [6, 12])]);
    expect(low).toBeCloseTo(5, 12);
    expect(high).toBeCloseTo(12, 12);
  });
});
