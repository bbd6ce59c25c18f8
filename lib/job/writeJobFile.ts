import { readFileSync } from 'node:fs';
import { dirname, isAbsolute, relative, resolve } from 'node:path';
import { writeNew } from '../report';
import type { Asked } from './asked';
import type { FileOf } from './fileToRead';
import type { JobFile, SaidChart } from './jobFile';

/** What became of a job file. */
export type JobWritten = 'written' | 'as it stood there' | 'another stands there';

/**
 * Writes a job as a file whose paths start at its own folder, with a line for all that nobody said. Never over another.
 * @param from the folder at which the paths of the job start.
 * @throws TemperbookError when the place cannot be written to.
 */
export function writeJobFile(
  path: string,
  job: JobFile,
  from: string,
  asked: readonly Asked[] = [],
): JobWritten {
  const folder = dirname(resolve(path));
  const lines = asked.map(
    ({ question, key, meanwhile }) => `// Nobody said: ${question} Key ${key}; ${meanwhile}.\n`,
  );
  const text = `${lines.join('')}${JSON.stringify(movedJob(job, from, folder), undefined, 2)}\n`;
  if (writeNew(path, text)) return 'written';
  return readFileSync(path, 'utf8') === text ? 'as it stood there' : 'another stands there';
}

/** The same job with its paths from another folder. */
function movedJob(job: JobFile, from: string, to: string): JobFile {
  const path = (said: string): string => (isAbsolute(said) ? said : relative(to, resolve(from, said)));
  const file = <Said extends FileOf>(said: Said): Said =>
    (typeof said === 'string' ? path(said) : { ...(said as object), file: path(said.file) }) as Said;
  const { defaults, log, plan, earlier, lot, recovery, check } = job;
  const schedule = (said: string): string => (/\.json$/i.test(said) ? path(said) : said);
  return {
    ...job,
    ...(log === undefined ? {} : { log: file(log) }),
    ...(check === undefined
      ? {}
      : { check: typeof check === 'string' ? path(check) : { ...check, log: file(check.log) } }),
    ...(defaults === undefined ? {} : { defaults: path(defaults) }),
    ...(typeof plan === 'string' ? { plan: path(plan) } : {}),
    ...(earlier ? { earlier: earlier.map((one) => ({ ...one, record: path(one.record) })) } : {}),
    ...(recovery
      ? {
          recovery: {
            ...recovery,
            ...(recovery.schedule === undefined ? {} : { schedule: schedule(recovery.schedule) }),
            ...(recovery.wroughtSchedule === undefined
              ? {}
              : { wroughtSchedule: schedule(recovery.wroughtSchedule) }),
          },
        }
      : {}),
    ...(lot
      ? {
          lot: {
            ...lot,
            ...(lot.chart ? { chart: movedChart(file(lot.chart), file, schedule) } : {}),
            ...(lot.cards ? { cards: lot.cards.map(path) } : {}),
          },
        }
      : {}),
  };
}

/** The rest of a chart's paths: those of the charts that follow it, and of a schedule of your own. */
function movedChart(
  chart: SaidChart,
  file: <Said extends FileOf>(said: Said) => Said,
  schedule: (said: string) => string,
): SaidChart {
  if (typeof chart === 'string') return chart;
  return {
    ...chart,
    ...(chart.schedule === undefined ? {} : { schedule: schedule(chart.schedule) }),
    ...(chart.next === undefined ? {} : { next: chart.next.map(file) }),
  };
}
