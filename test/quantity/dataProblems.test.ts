import { describe, expect, it } from 'vitest';
import { dataCheck, refuseProblems, TemperbookError } from '../../lib/quantity';

const check = dataCheck(
  {
    type: 'object',
    required: ['waits', 'speed'],
    additionalProperties: false,
    properties: {
      speed: { type: 'number', description: 'a number, mm/s' },
      rim: { enum: ['exposed', 'insulated'] },
      waits: {
        type: 'array',
        items: {
          type: 'object',
          additionalProperties: false,
          properties: {
            waitS: { type: 'number' },
            interpassC: { type: 'number' },
            atProbe: { type: 'string' },
          },
          dependencies: { interpassC: ['atProbe'] },
        },
      },
    },
  },
  'the plan',
);
const told = (data: unknown) => check(data).map(({ at, found, expected }) => `${at}: ${found} / ${expected}`);

describe('dataCheck', () => {
  it('passes what is sound, keys that may be left out left out or undefined', () => {
    expect(check({ speed: 3, waits: [{}, { waitS: 4 }], rim: undefined })).toEqual([]);
  });

  it.each([
    ['interPassC', 'interpassC'],
    ['atprobe', 'atProbe'],
    ['waits', 'waitS'],
    ['wait', 'waitS'],
    ['interpasC', 'interpassC'],
    ['interpassDegC', undefined],
    ['x', undefined],
  ])('names the place of an unknown key %s and the known one it may mean', (key, meant) => {
    const all = 'one of waitS, interpassC, atProbe';
    expect(told({ speed: 3, waits: [{}, { [key]: 60 }] })).toEqual([
      `waits[1].${key}: a key the kit does not know / ${meant ? `${all}; did you mean ${meant}?` : all}`,
    ]);
  });

  it('tells all problems at once, and what is expected in the words of the schema', () => {
    expect(told({ rim: 'insulatd', waits: [{ interpassC: null }] })).toEqual([
      'the plan: nothing / the key "speed": a number, mm/s',
      'rim: "insulatd" / one of "exposed", "insulated"',
      'waits[0]: interpassC without atProbe / both or neither',
      'waits[0].interpassC: null / a number',
    ]);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('shows %s as what it is', (speed) => {
    expect(told({ speed, waits: [] })).toEqual([`speed: ${speed} / a number, mm/s`]);
  });

  it.each([undefined, null, 'text', 7, []])('takes %j for what it is: no plan', (nonsense) => {
    expect(told(nonsense)).toHaveLength(1);
    expect(told(nonsense)[0]).toMatch(/^the plan: .* \/ an object$/);
  });
});

describe('refuseProblems', () => {
  it('throws a list of them, and nothing where there are none', () => {
    expect(() => refuseProblems('This plan', [])).not.toThrow();
    const one = { at: 'rim', found: '7', expected: 'a word' };
    expect(() => refuseProblems('This plan', [one])).toThrow(TemperbookError);
    expect(() => refuseProblems('This plan', [one])).toThrow(
      'This plan has one problem:\n  rim: found 7, expected a word',
    );
    expect(() => refuseProblems('This plan', [one, one])).toThrow('has 2 problems');
  });
});
