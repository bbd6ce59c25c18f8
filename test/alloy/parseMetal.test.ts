import { describe, expect, it } from 'vitest';
import { findTemper, loadAlloy, namedMetal, parseMetal } from '../../lib/alloy';

describe('parseMetal', () => {
  // Words of the trade: how people write alloy and temper.
  it.each([
    ['A356-T6', { alloy: 'A356', temper: 'T6' }],
    ['A356.0-T61', { alloy: 'A356.0', temper: 'T61' }],
    ['6061-T6', { alloy: '6061', temper: 'T6' }],
    ['6061 t651', { alloy: '6061', temper: 'T651' }],
    ['6061-T-6', { alloy: '6061', temper: 'T6' }],
    ['EN AW-6082 T6', { alloy: 'EN AW-6082', temper: 'T6' }],
    ['EN AC-42100', { alloy: 'EN AC-42100' }],
    ['AlSi7Mg0.3', { alloy: 'AlSi7Mg0.3' }],
    ['6061-O', { alloy: '6061', temper: 'O' }],
    ['T-6', { temper: 'T6' }],
    ['t 6', { temper: 'T6' }],
    ['LM25', { alloy: 'LM25' }],
    ['own card-T6.json', { alloy: 'own card-T6.json' }],
  ])('reads %j', (text, words) => expect(parseMetal(text)).toEqual(words));

  it.each(['T0', '6061-T0', 'T-0'])('asks about %s', (text) =>
    expect(() => parseMetal(text)).toThrow(/no temper T0.*O \(the letter\).*Ask/),
  );
  it('refuses nothing at all', () => expect(() => parseMetal(' ')).toThrow(/No metal/));
});

describe('namedMetal', () => {
  it('takes one word, two options, and both where they agree', () => {
    const card = loadAlloy('A356.0');
    for (const [alloy, temper] of [['A356-T6'], ['A356', 'T-6'], ['A356.0 T6', 't6'], [card, 'T6']] as const)
      expect(namedMetal(alloy, temper)).toEqual({ card, temper: 'T6' });
  });
  it('never takes a temper that nobody said', () => {
    expect(() => namedMetal('6061')).toThrow(/No temper of 6061.*O, T4, T6.*do not guess/);
    expect(() => namedMetal('T6')).toThrow(/where the alloy is asked/);
  });
  it('refuses two tempers', () => expect(() => namedMetal('6061-T6', 'T4')).toThrow(/Two tempers/));
  it('T-6 is T6 wherever a temper is asked', () =>
    expect(findTemper(loadAlloy('6061'), 'T-6').name).toBe('T6'));
});
