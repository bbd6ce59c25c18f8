import { describe, expect, it } from 'vitest';
import { judge, judgeHeats } from '../../../lib/decision';
import { parseHeats } from '../../../lib/exposure';
import { ovenExposure } from '../../../lib/heatflow';
import { readLog } from '../../../lib/log';
import { fc } from '../../setup/fc';
import { cool, csv, USUAL } from '../logs';

const METAL = { alloy: 'A356-T6', oven: 'class 5', wallMm: 12, fan: true } as const;
const { oven, wallMm, fan } = METAL;

describe('judgeHeats', () => {
  it('is the same answer as judge gives to the same exposures', () =>
    fc.assert(
      fc.property(
        fc.constantFrom('390F 1h', '2 x 200C 20min', '440F 30min'),
        fc.constantFrom('350F 1h', '425F 20min'),
        fc.constantFrom('A356-T6', '6061-T6'),
        (first, second, alloy) => {
          const told = judgeHeats([first, second], { ...METAL, alloy });
          const [a, b] = [first, second].map((words) => parseHeats(words)[0]!);
          const other = judge(ovenExposure(b!, { oven, wallMm, fan }), {
            alloy,
            earlier: new Array(a!.times).fill(ovenExposure(a!, { oven, wallMm, fan })),
          });
          expect(told.word).toBe(other.verdict);
          expect(told.chanceKept).toBeCloseTo(other.chanceKept!, 6);
        },
      ),
      { numRuns: 5, endOnFailure: true },
    ));

  it('repeats are the heats one by one', () =>
    expect(judgeHeats('3 x 390F 20min', METAL).places[0]!.yieldKeptFraction.low).toBe(
      judgeHeats(['390F 20min', '390F 20min', '390F 20min'], METAL).places[0]!.yieldKeptFraction.low,
    ));

  it('the heats that are left are there when they are asked for', () => {
    const one = judgeHeats('390F 20min', METAL);
    const { more } = one.left!;
    expect(one.word).toBe('kept');
    expect(more).toBeGreaterThan(2);
    expect(judgeHeats(`${more + 1} x 390F 20min`, METAL).word).toBe('kept');
    expect(judgeHeats(`${3 * more} x 390F 20min`, METAL).word).not.toBe('kept');
  });

  it('a heat that nobody can bound well is not cleared, and says what to ask', () => {
    const answer = judgeHeats('390F 1.5h', { alloy: 'A356-T6' });
    expect(answer.word).toBe('uncertain');
    expect(answer.left!.more).toBe(0);
    expect(answer.asks.join(' ')).toMatch(/Which oven.*How thick/);
    expect(answer.places[0]!.settle[0]).toMatch(/Brinell/);
  });

  it('a log and then bakes: each probe goes on from its own log', () => {
    const log = readLog(Buffer.from(csv({ TC1: cool, TC2: cool }, { toS: 60 })));
    const { places } = judgeHeats([log, '3 x 390F 20min'], {
      ...USUAL,
      ...METAL,
      byChannel: { TC2: { alloy: '6061-T6' } },
    });
    expect(places.map(({ name, alloy }) => `${name} ${alloy}`)).toEqual(['TC1 A356.0', 'TC2 6061']);
    expect(places[0]!.exposures).toHaveLength(4);
    expect(() => judgeHeats([log, log], METAL)).toThrow(/More than one log/);
  });

  it.each([
    ['1100F 1h', /begins to melt/],
    ['390 1h', /°F or °C/],
  ])('refuses %j', (words, message) => expect(() => judgeHeats(words, METAL)).toThrow(message));
  it('never takes a temper that nobody said', () =>
    expect(() => judgeHeats('390F 1h', { alloy: 'A356' })).toThrow(/No temper/));
});
