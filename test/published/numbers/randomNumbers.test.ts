import { describe, expect, it } from 'vitest';
import { splitMix64, xoshiro128StarStar } from '../../../lib/statistics/seededRandom';

describe('published generators', () => {
  it('xoshiro128** from the state 1, 2, 3, 4 (reference code of Blackman and Vigna, as quoted by several test suites)', () => {
    const next = xoshiro128StarStar(Uint32Array.of(1, 2, 3, 4));
    expect(Array.from({ length: 10 }, next)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('SplitMix64 from the seed 1234567 (reference code of Vigna; widely quoted, from memory)', () => {
    const next = splitMix64(1234567n);
    expect(Array.from({ length: 5 }, next)).toEqual([
      6457827717110365317n,
      3203168211198807973n,
      9817491932198370423n,
      4593380528125082431n,
      16408922859458223821n,
    ]);
  });
});
