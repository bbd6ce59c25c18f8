import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { loadAlloy, shopLimit } from '../alloy';
import { checkPlan, type PlatePlan } from '../heatflow';
import { loadSchedule } from '../heattreat';
import { celsiusOf, type DataProblem, dataCheck, readUserJson, TemperbookError } from '../quantity';
import { readRecord } from '../record';
import { attachmentError } from '../thermocouple';
import { checkReadings, readLotCard } from '../verify';
import { pausesOf } from './chartOfJob';
import { type FileOf, schedulePath } from './fileToRead';
import { checkOfProbes } from './heats/checkOfProbes';
import { heatOfJob } from './heats/heatOfJob';
import type { JobFile, SaidChart, SaidMetal } from './jobFile';
import { jobMetal, metalOfProbe } from './jobMetal';
import { readDefaults } from './readDefaults';
import { jobSchema } from './schema/jobSchema';

const problemsOfForm = dataCheck(jobSchema, 'the job');

/** Everything wrong with a job: its form, then what a schema cannot say of the keys whose form is sound. */
export function jobProblems(data: unknown, folder: string, isLogToCome: boolean): readonly DataProblem[] {
  const ofForm = problemsOfForm(data);
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return ofForm;
  const unsound = new Set(ofForm.map(({ at }) => at.split(/[.[]/)[0]!));
  const sound = Object.entries(data).filter(([key]) => !unsound.has(key));
  return [
    ...ofForm,
    ...whatItIsAbout(data),
    ...unreadProbes(data),
    ...senseProblems(Object.fromEntries(sound), folder, isLogToCome),
  ];
}

/** A job is about a log, about the chart of its lot, or about heats that were told; then a name must tell its record from others. */
function whatItIsAbout({ log, heats, job, part, lot }: Partial<JobFile>): DataProblem[] {
  if (log !== undefined || (heats === undefined && lot?.chart !== undefined)) return [];
  if (heats === undefined || heats.length === 0)
    return [
      {
        at: 'the job',
        found: 'neither log nor heats',
        expected:
          'the key "log": the logger\'s file; or, where nobody logged, the key "heats": what the part saw, in words',
      },
    ];
  if (job !== undefined || part?.name !== undefined) return [];
  return [
    {
      at: 'the job',
      found: 'a job without a log that has no name',
      expected: 'the key "job", its number, or "part" with a name, by which its record is found again',
    },
  ];
}

/** Keys of a probe that mean nothing where nobody logged. */
function unreadProbes({ log, probes }: Partial<JobFile>): DataProblem[] {
  if (log !== undefined || typeof probes !== 'object' || probes === null) return [];
  return Object.entries(probes).flatMap(([name, probe]) =>
    (['role', 'attachment', 'instrument'] as const)
      .filter((key) => probe?.[key] !== undefined)
      .map((key) => ({
        at: `probes.${name}.${key}`,
        found: 'a job without a log, whose probes nobody read',
        expected: 'metal alone: each probe that is named is a place of the part',
      })),
  );
}

/** What stands in a plan's file, or the plan itself. @throws TemperbookError as `readUserJson` and `checkPlan`. */
export function planOf(said: string | PlatePlan, folder: string): PlatePlan {
  const plan =
    typeof said === 'string' ? (readUserJson(resolve(folder, said), 'The plan') as PlatePlan) : said;
  checkPlan(plan);
  return plan;
}

/** The path of a file that may stand alone or with how to read it. */
export const pathOf = (said: FileOf): string => (typeof said === 'string' ? said : said.file);

function senseProblems(job: Partial<JobFile>, folder: string, isLogToCome: boolean): DataProblem[] {
  const {
    log,
    defaults,
    metal,
    measuring,
    limits,
    probes = {},
    plan,
    earlier = [],
    lot,
    heats = [],
    check,
    readings = [],
    recovery = {},
  } = job;
  const problems: DataProblem[] = [];
  const tryOut = (at: string, look: () => unknown): void => {
    try {
      look();
    } catch (error) {
      if (!(error instanceof TemperbookError)) throw error;
      problems.push(problemOf(at, error));
    }
  };
  const file = (at: string, said: FileOf | undefined): void => {
    if (said === undefined) return;
    const path = pathOf(said);
    const found = statSync(resolve(folder, path), { throwIfNoEntry: false });
    if (!found?.isFile() && (found || at !== 'log' || !isLogToCome))
      problems.push({
        at: typeof said === 'string' ? at : `${at}.file`,
        found: `"${path}", ${found ? 'which is no file' : 'which is not there'}`,
        expected: `the path of a file, from ${folder}`,
      });
  };
  const metalAt = (at: string, said: SaidMetal | undefined): void => {
    if (said !== undefined) tryOut(at, () => jobMetal(said, folder));
  };
  file('log', log);
  if (defaults !== undefined) tryOut('defaults', () => readDefaults(resolve(folder, defaults)));
  metalAt('metal', metal);
  if (measuring?.attachment !== undefined)
    tryOut('measuring.attachment', () => attachmentError(measuring.attachment!));
  if (measuring?.ambientC !== undefined)
    tryOut('measuring.ambientC', () => celsiusOf(measuring.ambientC, 'ambientC'));
  if (limits?.limitC !== undefined) tryOut('limits.limitC', () => shopLimit(limits.limitC!));
  for (const [name, probe] of Object.entries(probes)) {
    if (probe.metal !== undefined) tryOut(`probes.${name}.metal`, () => metalOfProbe(probe.metal!, folder));
    if (probe.attachment !== undefined)
      tryOut(`probes.${name}.attachment`, () => attachmentError(probe.attachment!));
  }
  if (plan !== undefined)
    tryOut(typeof plan === 'string' ? `plan, ${plan}` : 'plan', () => planOf(plan, folder));
  earlier.forEach(({ record }, k) => {
    tryOut(`earlier[${k}].record`, () => readRecord(resolve(folder, record)));
  });
  file('lot.chart', lot?.chart);
  if (lot?.chart !== undefined && typeof lot.chart !== 'string') {
    const { schedule, next = [] } = lot.chart;
    for (const [k, one] of next.entries()) file(`lot.chart.next[${k}]`, one);
    if (schedule !== undefined)
      tryOut('lot.chart.schedule', () => loadSchedule(schedulePath(schedule, folder)));
    tryOut('lot.chart.next', () => pausesOf(lot.chart as Exclude<SaidChart, string>));
  }
  lot?.cards?.forEach((card, k) => {
    tryOut(`lot.cards[${k}]`, () => readLotCard(resolve(folder, card)));
  });
  heats.forEach((heat, k) => {
    // Whether it melts the metal shows when that is known.
    tryOut(`heats[${k}]`, () =>
      heatOfJob(heat, loadAlloy('6061'), {
        wallMm: Number(job.sheet?.thicknessMm) || undefined,
        lot: lot?.name,
      }),
    );
  });
  if (check !== undefined) tryOut('check', () => checkOfProbes(check, folder));
  for (const key of ['schedule', 'wroughtSchedule'] as const) {
    const name = recovery[key];
    if (name !== undefined) tryOut(`recovery.${key}`, () => loadSchedule(schedulePath(name, folder)));
  }
  readings.forEach((reading, k) => {
    // Whether the log has such a probe shows when it is read.
    tryOut(`readings[${k}]`, () => checkReadings([reading], [reading.channel]));
  });
  return problems;
}

/** An error of another room as a line of the list, or in its own words where it does not say both. */
function problemOf(at: string, { message, place }: TemperbookError): DataProblem {
  const [what] = message.split('. Found: ');
  const { found = message, expected = '', remedy } = place;
  if (place.found === undefined || place.expected === undefined)
    return { at, found, expected, instead: message.replace(/\.$/, '').replaceAll('\n', '\n  ') };
  const more = remedy ? ` (${remedy.replace(/[.?]$/, '')})` : '';
  return { at, found: `${found} (${what})`, expected: `${expected}${more}` };
}
