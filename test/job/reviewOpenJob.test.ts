import { describe, expect, it } from 'vitest';
import { judge } from '../../lib/decision';
import { isothermal } from '../../lib/history';
import { type JobFile, readJob, reviewJob, reviewOpenJob } from '../../lib/job';

const job = (metal: JobFile['metal'], heat: string, more: Partial<JobFile> = {}): JobFile => ({
  job: 'J-8',
  metal,
  heats: [{ heat, oven: 'class 5', wallMm: 12, fan: true }],
  ...more,
});
const open = (file: JobFile) => reviewOpenJob(readJob(file));

describe('a job whose metal its words leave open', () => {
  it('is reviewed for every metal it may be, and the word holds for all of them', () => {
    for (const heat of ['300F 20min', '440F 3h', '600F 5h']) {
      const mixed = open(job('A356-T6 or A356-T7', heat));
      const alone = ['A356-T6', 'A356-T7'].map((metal) => reviewJob(readJob(job(metal, heat))).verdict);
      expect(mixed.answers.map(({ metal, weight }) => [metal, weight])).toEqual([
        ['A356.0-T6', 0.5],
        ['A356.0-T7', 0.5],
      ]);
      expect(mixed.answers.map(({ verdict }) => verdict.review.verdict)).toEqual(alone);
      const [first, second] = alone.map(({ verdict }) => verdict);
      expect(mixed.word).toBe(first === second ? first : 'uncertain');
      expect(mixed.chanceKept).toBeCloseTo((alone[0]!.chanceKept! + alone[1]!.chanceKept!) / 2, 12);
    }
  });

  it('takes hardness of cold metal into the weights, and a temper said apart', () => {
    const readings = [{ channel: 'the part', kind: 'brinell' as const, value: 70, reference: 95 }];
    // By the card 6061-T6 reads 95 HB and O reads 30 (Aluminum Association, typical).
    const { answers } = open(job('6061, temper not known', '350F 1h', { readings }));
    expect(answers.find(({ metal }) => metal === '6061-T6')!.weight).toBeGreaterThan(0.95);
    expect(answers.find(({ metal }) => metal === '6061-O')!.isRuledOut).toBe(true);
    const like = open(job({ alloy: 'like A356', temper: 'T6' }, '350F 1h'));
    expect(like.answers.map(({ metal }) => metal)).toEqual(['356.0-T6', 'A356.0-T6']);
  });

  it('is refused by every question of one metal, with what to do', () => {
    const file = job('like 356, temper not known', '350F 1h');
    expect(() => reviewJob(readJob(file))).toThrow(/leaves open what metal was heated.*review/s);
    expect(() => judge(isothermal(200, 600), { alloy: 'like 356', temper: 'T6' })).toThrow(
      /leave the metal open.*every metal it may be/s,
    );
    expect(() => readJob(job('like 999', '350F 1h'))).toThrow(/metal: found/);
    expect(() => open(job('A356-T6', '350F 1h'))).toThrow(/is not open/);
    // Under one probe it would fall back to the metal of the part, unsaid.
    const probes = { tube: { metal: '6061-T6 or 6061-T4' } };
    expect(() => readJob(job('A356-T6', '350F 1h', { probes }))).toThrow(/probes\.tube\.metal: .*left open/);
  });
});
