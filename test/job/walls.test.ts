import path from 'node:path';
import { expect, it } from 'vitest';
import { type JobFile, readJob } from '../../lib/job';
import { wallOf, weldThicknessMm } from '../../lib/job/recovery/walls';

const job = (over: Partial<JobFile>) =>
  readJob({ job: 'J-1', metal: 'A356-T6', heats: ['200C 20min'], ...over });

it('takes walls from the plan, else the heaviest from the sheet, else says nothing', () => {
  const plan = path.resolve('data/demo/mast-foot-plan.json');
  for (const sheet of [{}, { sheet: { thicknessMm: 40 } }]) {
    // The demo's plan: a block of 25 mm, a tube wall of 3 mm, and a pin hole that is no wall.
    const planned = job({ plan, ...sheet });
    expect([wallOf(planned, 'A356.0'), wallOf(planned, '6061'), weldThicknessMm(planned)]).toEqual([
      25, 3, 3,
    ]);
  }
  const told = job({ sheet: { thicknessMm: 12 } });
  expect([wallOf(told, 'A356.0'), weldThicknessMm(told)]).toEqual([12, 12]);
  expect([wallOf(job({}), 'A356.0'), weldThicknessMm(job({}))]).toEqual([undefined, undefined]);
  // A plan that says nothing of an alloy leaves what the sheet says.
  expect(wallOf(job({ plan, sheet: { thicknessMm: 12 } }), '6082')).toBe(12);
});
