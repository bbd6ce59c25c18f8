import { describe, expect, it } from 'vitest';
import { weldDistanceMm } from '../../lib/planning';

describe('weldDistanceMm', () => {
  it.each([
    ['12 mm from the centre line', undefined, 12],
    ['1in from the center line', undefined, 25.4],
    ['1 in from the toe', 8, 29.4],
    ['1.5 cm from the edge', 10, 20],
  ])('%j is %d mm', (words, width, mm) => expect(weldDistanceMm(words, width)).toBeCloseTo(mm, 9));
  it('asks from where, and how wide the bead is', () => {
    expect(() => weldDistanceMm('1 in')).toThrow(/centre line of the weld, or from its toe\?/);
    expect(() => weldDistanceMm('1 in from the toe')).toThrow(/How wide/);
    expect(() => weldDistanceMm('near the weld')).toThrow(/cannot be read/);
  });
});
