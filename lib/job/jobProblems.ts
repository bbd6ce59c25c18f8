import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { shopLimit } from '../alloy';
import { parseHeats } from '../exposure';
import { checkPlan, type PlatePlan } from '../heatflow';
import { loadSchedule } from '../heattreat';
import { celsiusOf, type DataProblem, dataCheck, readUserJson, TemperbookError } from '../quantity';
import { readRecord } from '../record';
import { attachmentError } from '../thermocouple';
import { checkReadings, readLotCard } from '../verify';
import type { FileOf, JobFile, SaidMetal } from './jobFile';
import { jobMetal } from './jobMetal';
import { readDefaults } from './readDefaults';
import { jobSchema } from './schema/jobSchema';

const problemsOfForm = dataCheck(jobSchema, 'the job');

/** Everything wrong with a job: its form, then what a schema cannot say of the keys whose form is sound. */
export function jobProblems(data: unknown, folder: string): readonly DataProblem[] {
  const ofForm = problemsOfForm(data);
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return ofForm;
  const unsound = new Set(ofForm.map(({ at }) => at.split(/[.[]/)[0]!));
  const sound = Object.entries(data).filter(([key]) => !unsound.has(key));
  return [...ofForm, ...senseProblems(Object.fromEntries(sound), folder)];
}

/** What stands in a plan's file, or the plan itself. @throws TemperbookError as `readUserJson` and `checkPlan`. */
export function planOf(said: string | PlatePlan, folder: string): PlatePlan {
  const plan =
    typeof said === 'string' ? (readUserJson(resolve(folder, said), 'The plan') as PlatePlan) : said;
  checkPlan(plan);
  return plan;
}

/** A schedule's name, or the whole path of its file. */
export const schedulePath = (said: string, folder: string): string =>
  /\.json$/i.test(said) ? resolve(folder, said) : said;

/** The path of a file that may stand alone or with how to read it. */
export const pathOf = (said: FileOf): string => (typeof said === 'string' ? said : said.file);

function senseProblems(job: Partial<JobFile>, folder: string): DataProblem[] {
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
    if (!found?.isFile())
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
    metalAt(`probes.${name}.metal`, probe.metal);
    if (probe.attachment !== undefined)
      tryOut(`probes.${name}.attachment`, () => attachmentError(probe.attachment!));
  }
  if (plan !== undefined) tryOut('plan', () => planOf(plan, folder));
  earlier.forEach(({ record }, k) => {
    tryOut(`earlier[${k}].record`, () => readRecord(resolve(folder, record)));
  });
  file('lot.chart', lot?.chart);
  lot?.cards?.forEach((card, k) => {
    tryOut(`lot.cards[${k}]`, () => readLotCard(resolve(folder, card)));
  });
  heats.forEach((words, k) => {
    tryOut(`heats[${k}]`, () => parseHeats(words));
  });
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

/** An error of another room as a line of the list. */
function problemOf(at: string, { message, place }: TemperbookError): DataProblem {
  const [what] = message.split('. Found: ');
  if (place.found === undefined || place.expected === undefined)
    return { at, found: message.replace(/\.$/, ''), expected: 'what can be used' };
  const remedy = place.remedy ? ` (${place.remedy.replace(/[.?]$/, '')})` : '';
  return { at, found: `${place.found} (${what})`, expected: `${place.expected}${remedy}` };
}
