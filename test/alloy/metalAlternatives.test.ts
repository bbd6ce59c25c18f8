import { describe, expect, it } from 'vitest';
import { isOpenMetal, metalAlternatives } from '../../lib/alloy';

const names = (words: string) =>
  metalAlternatives(words).map(({ card, temper }) => `${card.designation}-${temper}`);

describe('a metal that is not known', () => {
  it('"like 356" is every casting card in every temper, none preferred', () => {
    const all = metalAlternatives('like 356, temper not known');
    expect(new Set(all.map(({ card }) => card.designation))).toEqual(new Set(['356.0', 'A356.0']));
    expect(new Set(all.map(({ weight }) => weight)).size).toBe(1);
    expect(all.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });
  it.each([
    ['A356-T6 or A356-T7', ['A356.0-T6', 'A356.0-T7']],
    ['6061-T6 or T-4'.replace('T-4', '6061-T4'), ['6061-T6', '6061-T4']],
    ['6061, temper ?', ['6061-O', '6061-T4', '6061-T6']],
    ['like A356-T6', ['356.0-T6', 'A356.0-T6']],
  ])('%j', (words, expected) => expect(names(words)).toEqual(expected));
  it.each([
    ['like 356', true],
    ['A356-T6 or A356-T7', true],
    ['6061 temper unknown', true],
    ['A356-T6', false],
    ['EN AC-42100 T6', false],
  ])('%j leaves it open: %s', (words, open) => expect(isOpenMetal(words)).toBe(open));
  it('asks for an alloy', () => expect(() => metalAlternatives('T6 or T7')).toThrow(/No alloy is named/));
});
