import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { exactly } from '../../lib/exposure';
import { isothermal } from '../../lib/history';
import { membersHash } from '../../lib/kinetics';
import { MOST_DRAWS, strengthAfter } from '../../lib/strength';
import { beforeMeasuring, benchAfter, benchAlong } from '../../lib/verify';
import { fc } from '../setup/fc';

describe('benchAlong', () => {
  it('has the strength of strengthAfter, and softer metal reads softer', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('A356-T6', '6061-T6', '6063-T6'),
        fc.double({ min: 180, max: 400, noNaN: true }),
        fc.integer({ min: 1, max: 7200 }),
        fc.boolean(),
        (alloy, tempC, timeS, isOfLot) => {
          const weights = Float64Array.from({ length: MOST_DRAWS }, (_, i) => 1 + (i % 3));
          const lots = isOfLot ? [{ name: 'lot 7', membersHash: membersHash(), weights, because: [] }] : [];
          const [soak] = benchAlong({ alloy, lots, tempC: [tempC], timeS });
          const strength = strengthAfter(
            exactly(isothermal(tempC, timeS)),
            { alloy, lots },
            { endOnly: true },
          );
          expect(soak!.yieldKeptFraction).toEqual(strength.yieldKeptFraction);
          const { hardness } = soak!;
          if ('nobodyKnows' in hardness) throw new Error(hardness.nobodyKnows);
          // The relation's own draw is even about its middle; 400 draws place a median to 0.05 of their spread.
          const slack = 0.1 * (hardness.reading.high - hardness.reading.low);
          if (soak!.yieldKeptFraction.nominal < 1)
            expect(hardness.reading.nominal).toBeLessThan(hardness.cold + slack);
        },
      ),
      { numRuns: 6, endOnFailure: true },
    );
  });

  it('expects the range of readings that what to measure goes by', () => {
    const card = loadAlloy('A356');
    const strength = strengthAfter(
      exactly(isothermal(260, 1800)),
      { alloy: card, temper: 'T6' },
      { endOnly: true },
    );
    const { hardness } = benchAfter(strength, { card, temper: 'T6' });
    if ('nobodyKnows' in hardness) throw new Error(hardness.nobodyKnows);
    const { clearsFrom } = beforeMeasuring(
      { name: 'the part', card, draws: strength.draws },
      { kind: 'brinell', reference: hardness.cold },
      0.3,
    );
    expect(clearsFrom).toBeGreaterThan(hardness.reading.low);
    expect(clearsFrom).toBeLessThan(hardness.reading.high);
  });

  it('knows no conductivity of a temper without sources, and refuses nonsense', () => {
    const [soak] = benchAlong({ alloy: '6061-T4', tempC: [250] });
    expect(soak!.conductivity).toHaveProperty('nobodyKnows');
    expect(() => benchAlong({ alloy: '6061-T6', tempC: [2000] })).toThrow(/temperature of a soak/i);
  });
});
