import { describe, expect, it } from 'vitest';
import { TemperbookError } from '../../lib/quantity';
import { alloySeries, type HazWeld, hazExtent, hazExtentUs, hazKnockDown } from '../../lib/section';

const weld: HazWeld = { alloy: '6061', process: 'TIG', joint: 'butt', heatPathsMm: [3, 3] };

describe('hazExtent', () => {
  it('takes the mean thickness of unequal parts, up to 1.5 times the thinnest', () => {
    expect(hazExtent({ ...weld, process: 'MIG', heatPathsMm: [5, 8] })).toMatchObject({
      supported: true,
      extentMm: 30,
    });
    expect(hazExtent({ ...weld, heatPathsMm: [3, 25] })).toMatchObject({
      supported: false,
      why: expect.stringContaining('too unequal'),
      remedy: expect.stringContaining('hardness traverse'),
    });
  });

  it('widens a fillet with fewer heat paths and narrows one with more', () => {
    const fillet = (...heatPathsMm: number[]) => hazExtent({ ...weld, joint: 'fillet', heatPathsMm });
    expect(fillet(3, 3)).toMatchObject({ extentMm: 45 });
    expect(fillet(3, 3, 3)).toMatchObject({ extentMm: 30 });
    expect(fillet(3, 3, 3, 3)).toMatchObject({ extentMm: 22.5 });
  });

  it('counts the whole outstand when the free edge is nearer than three extents, not at three', () => {
    expect(hazExtent({ ...weld, toFreeEdgeMm: 50 })).toMatchObject({ extentMm: 30, towardEdgeMm: 50 });
    expect(hazExtent({ ...weld, toFreeEdgeMm: 90 })).toMatchObject({ extentMm: 30, towardEdgeMm: 30 });
    expect(hazExtent(weld)).not.toHaveProperty('towardEdgeMm');
  });

  it('says why, factor by factor', () => {
    const answer = hazExtent({ ...weld, interpassC: 90, joint: 'fillet' });
    expect(answer).toMatchObject({ supported: true, extentMm: 30 * 1.25 * 1.5 });
    expect(answer.supported && answer.because.join(' ')).toMatch(/30 mm.*1\.250.*2 heat paths/);
  });

  it.each([
    ['a casting', { alloy: 'A356.0' }, /no extent of the softened zone in a welded casting/],
    ['a series not in the code', { alloy: '2024' }, /no extent for 2024/],
    ['thick TIG', { heatPathsMm: [8, 8] }, /no TIG extent above 6 mm/],
    ['a hot interpass', { interpassC: 150 }, /120 °C/],
  ])('answers "unsupported" for %s', (_, change, why) => {
    expect(hazExtent({ ...weld, ...change })).toMatchObject({
      supported: false,
      why: expect.stringMatching(why),
    });
  });

  it.each([
    ['a thickness of nothing', { heatPathsMm: [0, 3] }, /thickness of a heat path/],
    ['one path at a butt weld', { heatPathsMm: [3] }, /butt weld has two heat paths/],
    ['an unreadable alloy', { alloy: 'pot metal' }, /no aluminium designation/],
  ])('throws for %s', (_, change, message) => {
    expect(() => hazExtent({ ...weld, ...change })).toThrow(message);
  });

  it('reads TIG with alternating or direct current as TIG', () => {
    for (const process of ['TIG AC', 'TIG DC'] as const)
      expect(hazExtent({ ...weld, process })).toEqual(hazExtent(weld));
  });

  it.each([
    ['a process the codes do not hold', { process: 'MAG' as never }, /process.*Found: MAG.*MIG, TIG, TIG AC/],
    ['a process in small letters', { process: 'tig' as never }, /Found: tig/],
    ['no process', { process: undefined as never }, /Found: undefined/],
    ['a joint nobody knows', { joint: 'lap' as never }, /no such joint.*lap.*butt or fillet/],
  ])('throws for %s', (_, change, message) => {
    expect(() => hazExtent({ ...weld, ...change })).toThrow(TemperbookError);
    expect(() => hazExtent({ ...weld, ...change })).toThrow(message);
  });

  it('does not stretch the one-inch rule to castings', () => {
    expect(hazExtentUs('356')).toMatchObject({ supported: false });
  });
});

describe('hazKnockDown', () => {
  const tie = { alloy: '6061', temper: 'T6', form: 'profile', process: 'MIG', thicknessMm: 6 } as const;
  it.each([
    ['MIG to 15 mm', {}, 1],
    ['TIG to 6 mm', { process: 'TIG' }, 0.8],
    ['TIG above 6 mm', { process: 'TIG', thicknessMm: 6.5 }, 0.64],
    ['MIG above 15 mm', { thicknessMm: 18 }, 0.8],
  ] as const)('%s: table times %d', (_, change, factor) => {
    const answer = hazKnockDown({ ...tie, ...change });
    expect(answer).toMatchObject({ supported: true, holdsAfterDays: 3 });
    expect(answer.supported && answer.rhoProof).toBeCloseTo(0.48 * factor, 12);
  });
  it('gives TIG AC the lower value of TIG, never that of MIG, and refuses what it does not know', () => {
    expect(hazKnockDown({ ...tie, process: 'TIG AC' })).toEqual(hazKnockDown({ ...tie, process: 'TIG' }));
    for (const process of ['MAG', 'tig', 'laser'] as never[])
      expect(() => hazKnockDown({ ...tie, process })).toThrow(TemperbookError);
  });
  it('keeps annealed metal whole and hardened 5083 at 0.9 where thick', () => {
    const sheet = { ...tie, alloy: '5083', form: 'sheet' } as const;
    expect(hazKnockDown({ ...sheet, temper: 'H111', process: 'TIG', thicknessMm: 20 })).toMatchObject({
      rhoProof: 1,
    });
    const hard = hazKnockDown({ ...sheet, temper: 'H32', thicknessMm: 20 });
    expect(hard.supported && hard.rhoProof).toBeCloseTo(0.62 * 0.9, 12);
  });
  it('answers "unsupported" for castings and for rows it does not hold', () => {
    expect(hazKnockDown({ ...tie, alloy: 'A356.0' })).toMatchObject({
      supported: false,
      why: 'EN 1999-1-1 gives no strength left in a welded casting such as A356.0.',
      remedy: expect.stringContaining('AASHTO LTS'),
    });
    expect(hazKnockDown({ ...tie, temper: 'T8' })).toMatchObject({ supported: false });
    expect(hazKnockDown({ ...tie, thicknessMm: 30 })).toMatchObject({ supported: false });
    expect(() => hazKnockDown({ ...tie, form: 'tube' as never })).toThrow(/no such form.*drawn tube/);
  });
});

it.each([
  ['6061', '6xxx'],
  ['6061-T6', '6xxx'],
  ['EN AW-6082', '6xxx'],
  ['6005A', '6xxx'],
  ['5083', '5xxx'],
  ['7020', '7xxx'],
  ['2024', 'other wrought'],
  ['A356.0', 'casting'],
  ['356', 'casting'],
  ['EN AC-42100', 'casting'],
])('reads %s as %s', (designation, series) => expect(alloySeries(designation)).toBe(series));
