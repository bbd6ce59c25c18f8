import { describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
import { thermalHistory } from '../../../lib/history';
import { advanceMetal, membersHash, startOfMetal } from '../../../lib/kinetics';
import { readLog } from '../../../lib/log';
import {
  amendRecord,
  buildRecord,
  changedSince,
  type DecisionRecord,
  judgeAgain,
  shelfEntry,
} from '../../../lib/record';
import { drawMetals, KEPT_FROM, LOST_UP_TO } from '../../../lib/strength';
import { inFull } from '../../setup/extent';
import { fc } from '../../setup/fc';

const log = readLog('data/demo/mast-foot-two-probes.csv');
const [lip, tube] = log.channels.map(({ name }) => name) as [string, string];

/** The record of the demo weld as if its rises had been so much of what they were. */
function recordAt(share: number, more: Partial<Parameters<typeof judge>[1]> = {}): DecisionRecord {
  const channels = log.channels.map((one) => ({
    ...one,
    history: { ...one.history, tempC: one.history.tempC.map((temp) => 20 + share * (temp - 20)) },
  }));
  const verdict = judge(
    { ...log, channels },
    {
      alloy: 'A356.0',
      temper: 'T6',
      attachment: 'peened hole',
      byChannel: { [tube]: { alloy: '6061' } },
      ...more,
    },
  );
  return buildRecord({ verdict, figures: [] });
}

describe('a record judged again', () => {
  // Heats are kept to 500 samples, rounded to a hundredth of a degree: 0.02 is what the rules of the draws allow for that.
  it('says what it said: the chance to 0.02, the same word unless the chance lies that close to the rule', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.65, max: 1.05, noNaN: true }), (share) => {
        const record = recordAt(share);
        const now = judgeAgain(record, {});
        const was = record.verdict;
        expect(now.chanceKept === null).toBe(was.chanceKept === null);
        if (now.chanceKept === null || was.chanceKept === null) return;
        expect(Math.abs(now.chanceKept - was.chanceKept)).toBeLessThanOrEqual(0.02);
        const isClose = [KEPT_FROM, LOST_UP_TO].some((rule) => Math.abs(was.chanceKept! - rule) <= 0.02);
        if (!isClose) expect(now.verdict).toBe(was.verdict);
      }),
      { numRuns: inFull ? 40 : 2, endOnFailure: true },
    );
  });

  it('counts readings that weighed the verdict, yields measured before, and heats before this one', () => {
    const { history } = log.channels[0]!;
    const mild = { ...history, tempC: history.tempC.map((temp) => 20 + 0.6 * (temp - 20)) };
    const record = recordAt(0.8, {
      readings: [{ channel: lip, kind: 'brinell', value: 70, reference: 75 }],
      byChannel: { [lip]: { measuredYieldMPa: 195 }, [tube]: { alloy: '6061' } },
      earlier: [mild],
    });
    expect(record.verdict.channels[0]!.measuredYieldMPa).toBe(195);
    const now = judgeAgain(record, {});
    expect(now.verdict).toBe(record.verdict.verdict);
    expect(now.chanceKept).not.toBeNull();
    expect(Math.abs(now.chanceKept! - record.verdict.chanceKept!)).toBeLessThanOrEqual(0.02);
    const { readings: _, ...without } = record.verdict;
    expect(judgeAgain({ ...record, verdict: without }, {}).chanceKept).not.toBe(now.chanceKept);
  });

  it('with a reading added comes to what a review with that reading does', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.65, max: 1.05, noNaN: true }),
        fc.oneof(
          fc.record({
            channel: fc.constant(lip),
            kind: fc.constant('brinell' as const),
            value: fc.integer({ min: 55, max: 80 }),
            reference: fc.constant(75),
          }),
          fc.record({
            channel: fc.constantFrom(lip, tube),
            kind: fc.constant('yield' as const),
            value: fc.integer({ min: 120, max: 280 }),
          }),
        ),
        (share, reading) => {
          const amended = amendRecord(recordAt(share), { readings: [reading] }).verdict;
          const atOnce = recordAt(share, { readings: [reading] }).verdict;
          expect(amended.chanceKept === null).toBe(atOnce.chanceKept === null);
          for (const [k, { chanceKept, verdict }] of atOnce.channels.entries()) {
            const now = amended.channels[k]!;
            expect(Math.abs(now.chanceKept! - chanceKept!)).toBeLessThanOrEqual(0.02);
            const isClose = [KEPT_FROM, LOST_UP_TO].some((rule) => Math.abs(rule - chanceKept!) <= 0.02);
            if (!isClose) expect(now.verdict).toBe(verdict);
          }
        },
      ),
      { numRuns: inFull ? 12 : 1, endOnFailure: true },
    );
  });

  it('counts the lot of its job, and says so where that was weighed with other members', () => {
    const { metals } = drawMetals({ alloy: 'A356.0', temper: 'T6' }, 4000);
    const hold = thermalHistory([0, 600], [270, 270]);
    // Soft metal that leaves hardly a tenth of the members, so that the lot tells.
    const weights = Float64Array.from(
      metals,
      (metal) => advanceMetal(metal, startOfMetal(metal), hold).yieldKept[1]! ** -12,
    );
    const lot = { name: 'lot 7', membersHash: membersHash(), weights, because: ['By its coupons.'] };
    const [record, without] = [recordAt(0.8, { lots: [lot] }), recordAt(0.8)];
    const reading = { channel: lip, kind: 'brinell', value: 72, reference: 75 } as const;
    const now = judgeAgain(record, {});
    expect(now.verdict).toBe(record.verdict.verdict);
    expect(Math.abs(now.chanceKept! - record.verdict.chanceKept!)).toBeLessThanOrEqual(0.02);
    expect(now.chanceKept!).toBeLessThan(without.verdict.chanceKept! - 0.02);
    // Through two doors: the reading in the job from the start, and added to its record later.
    const atOnce = recordAt(0.8, { lots: [lot], readings: [reading] }).verdict;
    const amended = amendRecord(record, { readings: [reading] });
    expect(Math.abs(amended.verdict.chanceKept! - atOnce.chanceKept!)).toBeLessThanOrEqual(0.02);
    expect(amended.verdict.readings?.because.join(' ')).toContain('coupons or chart say of lot 7');
    const [kept] = record.verdict.lots!;
    const old = { ...record, verdict: { ...record.verdict, lots: [{ ...kept!, membersHash: 'of old' }] } };
    expect(() => judgeAgain(old, {})).toThrow(
      /lot 7.*plausible metals of another version.*Review its job again/s,
    );
    // And of an early record, that says so and kept no lot.
    const { lots: _, ...verdict } = record.verdict;
    const early = { ...record, verdict };
    expect(() => judgeAgain(early, {})).toThrow(/coupons of a lot.*did not keep/s);
    for (const one of [old, early]) {
      const noted = amendRecord(one, { readings: [reading] });
      expect([noted.verdict.verdict, noted.readings]).toEqual([record.verdict.verdict, [reading]]);
    }
  });

  it('does not clear what was blind', () => {
    const record = recordAt(0.3);
    const blind = [{ name: 'TC9', isOnPart: true, because: 'nothing is known of it' }];
    const now = judgeAgain({ ...record, verdict: { ...record.verdict, notJudged: blind } }, {});
    expect([record.verdict.verdict, now.verdict, now.chanceKept]).toEqual(['kept', 'uncertain', null]);
  });
});

describe('what changed since', () => {
  const record = recordAt(0.7);
  const entry = shelfEntry(record, 'hb-record.json', 'hb-record');
  it('is nothing for a record of today', () => expect(changedSince(entry)).toEqual([]));

  it('is named: version, members, card', () => {
    const madeWith = { ...entry.madeWith, temperbook: '0.0.1', 'card 6061': 'x', 'plausible metals': 'y' };
    expect(changedSince({ ...entry, madeWith })).toEqual([
      'temperbook 0.0.1',
      'plausible metals',
      'card 6061',
    ]);
  });

  it('is everything for a record that does not say', () => {
    const { madeWith: _, ...verdict } = record.verdict;
    const old = shelfEntry({ ...record, verdict }, 'hb-record.json', 'hb-record');
    expect(changedSince(old)).toEqual(['plausible metals', 'card A356.0', 'card 6061']);
  });
});
