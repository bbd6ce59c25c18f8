import { dirname, extname } from 'node:path';
import { parseArgs } from 'node:util';
import { settleReadings, VERDICT_IN_WORDS } from '../decision';
import { type Job, jobOptions, logOf, type Review, readJob, reviewJob, reviewOpenJob, withLog } from '../job';
import { type ReadOptions, readLog, type ThermalLog } from '../log';
import { formatChance } from '../quantity';
import { buildRecord, namesIn, writeRecord } from '../record';
import { isFolder } from './many/logsToReview';
import { reviewMany } from './many/reviewMany';
import type { ReviewedLog } from './many/startReviewer';
import { askJob, canAsk } from './review/askJob';
import { askWay } from './review/askWay';
import { jobOfOptions } from './review/jobOfOptions';
import { tellJobFile, tellRecord, tellReview } from './review/tellReview';
import { keepNames, say, unitsShown } from './say';
import { shareLine } from './shareLine';
import { mixedLines } from './told/mixedLines';
import { onlyOne, required, shortest, UsageError } from './usage';

/** The options of `review`, as `parseArgs` takes them. */
export const REVIEW_OPTIONS = {
  alloy: { type: 'string' },
  temper: { type: 'string' },
  out: { type: 'string' },
  loss: { type: 'string' },
  limit: { type: 'string' },
  attached: { type: 'string' },
  defaults: { type: 'string' },
  probe: { type: 'string', multiple: true, default: [] as string[] },
  role: { type: 'string', multiple: true, default: [] as string[] },
  reading: { type: 'string', multiple: true, default: [] as string[] },
  lot: { type: 'string', multiple: true, default: [] as string[] },
  check: { type: 'string' },
  job: { type: 'string', multiple: true, default: [] as string[] },
  read: { type: 'string', default: '{}' },
} as const;

/** `temperbook review <job.json>`, or `temperbook review <log file> --alloy A356-T6 --out folder …`; of many logs, `reviewMany` */
export async function review(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: REVIEW_OPTIONS,
  });
  if (positionals.length > 1 || positionals.some(isFolder))
    return reviewMany(positionals, required(values.out, '--out <folder>'), optionsAsGiven(values));
  const path = onlyOne(positionals, 'the job file, or the log file to review');
  const isJob = isJobFile(path);
  if (isJob) refuseOptions(args, ['out']);
  const outFolder = isJob ? (values.out ?? dirname(path)) : required(values.out, '--out <folder>');
  await reviewAndTell(readJob(isJob ? path : jobOfOptions(path, values)), { isOpen: !isJob, outFolder });
}

/** Reviews a job, writes its record and tells both; of an open one it asks what is missing, and writes the job file. */
export async function reviewAndTell(
  said: Job,
  { isOpen, outFolder }: { readonly isOpen: boolean; readonly outFolder: string },
): Promise<void> {
  if (said.metal.open !== undefined) return tellOpenMetal(said);
  const reviewed = await reviewOf(said, isOpen);
  const built = buildRecord(reviewed.record);
  const record = writeRecord(built, outFolder, undefined, unitsShown());
  keepNames(namesIn(built));
  tellReview(reviewed);
  tellRecord(record);
  if (isOpen) tellJobFile(reviewed, record);
  const { verdict, chanceKept } = reviewed.verdict;
  process.send?.({
    verdict: VERDICT_IN_WORDS[verdict],
    chance: chanceKept === null ? 'not known' : formatChance(chanceKept),
    record: shortest(record.html),
  } satisfies ReviewedLog);
}

/** A job whose metal is open is judged for every metal it may be, and no record is written. */
function tellOpenMetal(said: Job): void {
  const mixed = reviewOpenJob(said);
  say(
    [...mixedLines(mixed), '', ...mixed.because, 'No record is written: a record is of one metal.'].join(
      '\n',
    ),
  );
  process.send?.({
    verdict: VERDICT_IN_WORDS[mixed.word],
    chance: mixed.chanceKept === null ? 'not known' : formatChance(mixed.chanceKept),
    record: 'none, for the metal is open',
  } satisfies ReviewedLog);
}

/** The options of the command line again, but for the place of the records. */
function optionsAsGiven(values: Readonly<Record<string, string | readonly string[] | undefined>>): string[] {
  return Object.entries(values)
    .filter(([name]) => name !== 'out')
    .flatMap(([name, value]) => [value ?? []].flat().flatMap((one) => [`--${name}`, one]));
}

/** Reviews a job; what a log by itself leaves unsaid is asked where somebody is there to say it. */
async function reviewOf(said: Job, isOpen: boolean): Promise<Review> {
  if (!said.log) return reviewJob(said);
  const reading = shareLine('Reading the log');
  const log = readLog(said.log.file, { ...said.log.read, onProgress: reading.tell });
  reading.end();
  const job = isOpen && canAsk() ? await askJob(said.said, log) : said;
  const decided = await askReading(job, log);
  const judging = shareLine('Judging');
  const reviewed = reviewJob(decided.job, { log: decided.log, onJudging: judging.tell });
  judging.end();
  return reviewed;
}

/** Where the word hangs on how the file is meant, asks on a terminal; elsewhere `reviewJob` says what to do. */
async function askReading(job: Job, log: ThermalLog): Promise<{ job: Job; log: ThermalLog }> {
  if (!canAsk() || log.openReadings.length === 0) return { job, log };
  const { file } = logOf(job);
  const again = (options: ReadOptions): ThermalLog => readLog(file, options);
  const { undecided } = settleReadings(log, again, jobOptions(job, log));
  if (!undecided) return { job, log };
  const { onProgress: _, name: __, ...read } = await askWay(undecided);
  return askReading(withLog(job, file, read), again(read));
}

/** Whether a path on the command line is a job rather than a log. */
export const isJobFile = (path: string): boolean => extname(path).toLowerCase() === '.json';

/** What a job file says is changed in it, so that the file stays the whole story. */
export function refuseOptions(args: readonly string[], allowed: readonly string[]): void {
  const [other] = args.flatMap((arg) => {
    const name = /^--([^=]+)/.exec(arg)?.[1];
    return name === undefined || allowed.includes(name) ? [] : [name];
  });
  if (other !== undefined)
    throw new UsageError(`--${other} has no place beside a job file: change it in the file`);
}
