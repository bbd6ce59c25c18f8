import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { afterAll, describe, expect, it } from 'vitest';
import { judge, judgeHeats } from '../../../lib/decision';
import { pointsExposure, stickOf } from '../../../lib/exposure';
import { type JobFile, readJob, reviewJob } from '../../../lib/job';
import { buildRecord, judgeAgain, readRecord, writeRecord } from '../../../lib/record';
import { fc } from '../../setup/fc';

const folder = mkdtempSync(`${tmpdir()}/told-`);
afterAll(() => rmSync(folder, { recursive: true }));

const KNOWN = { oven: 'class 5', wallMm: 12, fan: true } as const;
const job = (heats: JobFile['heats'], more: Partial<JobFile> = {}): JobFile => ({
  job: 'J-7',
  metal: 'A356-T6',
  heats,
  ...more,
});
const review = (file: JobFile) => reviewJob(readJob(file));

describe('a job of heats that nobody logged', () => {
  it('is the same number as judgeHeats gives to the same words, sticks of each heat and all', () =>
    fc.assert(
      fc.property(
        fc.constantFrom('390F 1h', '2 x 200C 20min', '425F 30min'),
        fc.constantFrom('350F 1h', '410F 20min'),
        fc.constantFrom([], ['425F not melted'], ['350F melted']),
        fc.constantFrom('A356-T6', '6061-T6'),
        (first, second, sticks, metal) => {
          const { verdict } = review(
            job(
              [
                { heat: first, ...KNOWN, sticks },
                { heat: second, ...KNOWN },
              ],
              { metal },
            ),
          );
          const told = judgeHeats([{ heat: first, seen: sticks.map(stickOf) }, second], {
            ...KNOWN,
            alloy: metal,
          });
          expect(verdict.verdict).toBe(told.word);
          expect(verdict.chanceKept).toBeCloseTo(told.chanceKept!, 6);
          expect(verdict.channels[0]!.yieldKeptFraction.low).toBeCloseTo(
            told.places[0]!.yieldKeptFraction.low,
            6,
          );
        },
      ),
      { numRuns: 5, endOnFailure: true },
    ));

  it('has a place for every probe that it names, each in its own metal, judged as by itself', () => {
    const heats = [{ heat: '425F 1h', ...KNOWN }];
    const { verdict } = review(
      job(heats, {
        probes: {
          block: { placeMm: 12, placeFrom: 'toe' },
          tube: { metal: '6061-T6' },
          lug: { metal: 'A356-T7' },
        },
      }),
    );
    const alone = ['A356-T6', '6061-T6', 'A356-T7'].map(
      (metal) => review(job(heats, { metal })).verdict.channels[0]!.yieldKeptFraction,
    );
    expect(verdict.channels.map(({ name, alloy, temper }) => [name, alloy, temper].join(' '))).toEqual([
      'block A356.0 T6',
      'tube 6061 T6',
      'lug A356.0 T7',
    ]);
    expect(verdict.channels.map((one) => one.yieldKeptFraction.low)).toEqual(
      alone.map(({ low }) => expect.closeTo(low, 2)),
    );
    const readings = [{ channel: 'tube', kind: 'brinell' as const, value: 80, reference: 95 }];
    expect(() => review(job(heats, { readings }))).toThrow(/readings\[0\]\.channel: found the probe "tube"/);
  });

  it('refuses what a probe cannot be where nobody logged', () => {
    const refused = (probe: NonNullable<JobFile['probes']>[string]) => () =>
      readJob(job(['390F 1h'], { probes: { tube: probe } }));
    expect(refused({ attachment: 'peened hole' })).toThrow(
      /probes\.tube\.attachment: found a job without a log, whose probes nobody read/,
    );
    expect(refused({ role: 'air' })).toThrow(/probes\.tube\.role/);
    expect(refused({ metal: '6061-T6' })).not.toThrow();
  });

  it('asks what nobody said of its oven, and says what it took', () => {
    const { asked, verdict } = review(job(['390F 1.5h']));
    expect(asked.map(({ question }) => question).join(' ')).toMatch(/Which oven\?.*How thick/);
    expect(asked[0]).toMatchObject({ key: 'heats[0]' });
    expect(verdict.channels[0]!.yieldKeptFraction.because.join(' ')).toMatch(/kitchen|not stated/);
  });

  it('writes a record that keeps what was seen: judged again it says the same', () => {
    const file = job([{ heat: '400F 20min', ...KNOWN, sticks: ['410F not melted'] }]);
    const { record, verdict } = review(file);
    const { json } = writeRecord(buildRecord(record), folder);
    const again = judgeAgain(readRecord(json), {});
    expect(again.chanceKept).toBeCloseTo(verdict.chanceKept!, 2);
    const without = review(job([{ heat: '400F 20min', ...KNOWN }])).verdict;
    expect(without.channels[0]!.yieldKeptFraction.low).toBeLessThan(again.channels[0]!.yieldKeptFraction.low);
  });

  it('a bake after the weld of a record goes on at each of its places', () => {
    const weld = buildRecord(review(job([{ heat: '350F 1h', ...KNOWN }], { job: 'weld' })).record);
    const { json } = writeRecord(weld, folder);
    const { verdict } = review(job([{ heat: '390F 20min', ...KNOWN }], { earlier: [{ record: json }] }));
    const both = judgeHeats(['350F 1h', '390F 20min'], { ...KNOWN, alloy: 'A356-T6' });
    expect(verdict.channels[0]!.yieldKeptFraction.nominal).toBeCloseTo(
      both.places[0]!.yieldKeptFraction.nominal,
      2,
    );
  });

  it('takes points off a paper chart as pointsExposure does, and a certificate by its lot', () => {
    const points = '0min 70F, 12min 395F, 40min 400F, 55min 150F';
    const { verdict } = review(job([{ points, toK: '±5F', between: 'the curve' }]));
    const same = judge(
      pointsExposure({
        timeS: [0, 720, 2400, 3300],
        tempC: [70, 395, 400, 150].map((tempF) => (tempF - 32) / 1.8),
        toK: 5 / 1.8,
        between: 'the curve',
      }),
      { alloy: 'A356-T6' },
    );
    expect(verdict.chanceKept).toBeCloseTo(same.chanceKept!, 9);
    const certificate = { lot: 'HB-07', set: '390F', time: '20min', oven: 'class 5', bakes: 2 };
    const certified = review(job([{ certificate, wallMm: 12 }], { lot: { name: 'HB-07' } }));
    expect(certified.asked.map(({ question }) => question).join(' ')).toMatch(/How hot was the metal/);
    expect(certified.verdict.channels[0]!.earlier).toHaveLength(1);
  });

  it('points with nothing known between them clear nothing; a stick that did not melt bounds them', () => {
    const points = { points: '0min 20C, 30min 90C, 60min 25C', toK: 3, between: 'not known' } as const;
    expect(review(job([points])).verdict).toMatchObject({ verdict: 'uncertain', chanceKept: null });
    expect(review(job([{ ...points, sticks: ['250F not melted'] }])).verdict.verdict).toBe('kept');
  });

  it.each([
    [{ metal: 'A356-T6', job: 'J' }, /neither log nor heats/],
    [{ metal: 'A356-T6', heats: ['390F 1h'] }, /has no name/],
    [job(['390 1h']), /heats\[0\].*°F or °C/],
    [job([{}]), /heats\[0\].*one thing|A heat is one thing/],
    [job([{ heat: '390F 1h', points: '0min 20C, 9min 30C' }]), /heat and points/],
    [job([{ points: '0min 20C, 9min 30C' }]), /toK.*between/],
    [job([{ heat: '390F 1h', sticks: ['400F'] }]), /stick cannot be read/],
    [job([{ certificate: { set: '390F', time: '1h' } }]), /lot/],
    [job([{ certificate: { lot: 'A', time: '1h' } }], { lot: { name: 'A' } }), /states no heat/],
    [job(['390F 1h'], { readings: [{ channel: 'TC1', kind: 'brinell', value: 70 }] }), /"the part"/],
    [job(['1100F 1h'], { metal: '6061-T6' }), /melt/],
    [job(['350F 1h; 390F 1h', { heat: '350F 1h; 390F 1h', sticks: ['400F melted'] }]), /In which of these/],
  ])('refuses %j', (file, message) => expect(() => review(file as JobFile)).toThrow(message));
});
