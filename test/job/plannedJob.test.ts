import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { type JobFile, plannedJob, readJob } from '../../lib/job';

const DEMO = path.resolve('data/demo');
const job = (over: Partial<JobFile> = {}) =>
  plannedJob(
    readJob({
      log: path.join(DEMO, 'mast-foot-two-probes.csv'),
      plan: path.join(DEMO, 'mast-foot-two-probes-plan.json'),
      metal: 'A356-T6',
      probes: { 'TC2 tube 22 mm': { metal: '6061-T4' } },
      ...over,
    }),
  );

describe('plannedJob', () => {
  it('names every metal of the plan in the temper that the job says, that of the part first', () => {
    expect(job().metals).toEqual([
      { alloy: 'A356.0', temper: 'T6' },
      { alloy: '6061', temper: 'T4' },
    ]);
    const tube = { metal: '6061-T6', probes: { 'TC1 lip 14 mm': { metal: 'A356-T7' } } };
    expect(job(tube).metals.map(({ alloy, temper }) => `${alloy}-${temper}`)).toEqual([
      '6061-T6',
      'A356.0-T7',
    ]);
  });

  it('takes the limit of the shop, else that of the card, and how probes are held on', () => {
    expect(job().limitC).toBeCloseTo(226.67, 2);
    const said = job({
      limits: { limitC: 200, allowanceFraction: 0.2 },
      measuring: { attachment: 'cemented' },
    });
    expect(said).toMatchObject({ limitC: 200, allowanceFraction: 0.2, attachment: 'cemented' });
  });

  it('asks for the plan, and for a temper that nobody said', () => {
    expect(() => job({ plan: undefined })).toThrow(/no plan of the weld.*key plan/s);
    expect(() => job({ probes: {} })).toThrow(/the temper of 6061/);
  });
});
