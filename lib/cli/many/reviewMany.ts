import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import path from 'node:path';
import { tableText } from '../../figure';
import { TemperbookError } from '../../quantity';
import { tableOf } from '../../report';
import { unitsShown } from '../say';
import { shareLine } from '../shareLine';
import { UsageError } from '../usage';
import { type LogToReview, logsToReview } from './logsToReview';

/** What a review tells the process that started it for one of many logs. */
export interface ReviewedLog {
  readonly verdict: string;
  readonly chance: string;
  readonly record: string;
}

/** What came of one log: its answer, or why there is none. */
type Outcome = { readonly log: LogToReview } & (
  | { readonly reviewed: ReviewedLog }
  | { readonly failed: string }
);

/** What is true of one part cannot be said of many. */
const OF_ONE_PART = /^--reading$|^(job|part)=/;

/**
 * Reviews many logs, each in a process of its own exactly as `temperbook review` of that log alone would, as many at a
 * time as the machine has cores. One that fails takes nothing with it. Prints a line per log in the order given.
 * @throws TemperbookError at the end, naming every log that failed.
 */
export async function reviewMany(
  paths: readonly string[],
  outFolder: string,
  options: readonly string[],
): Promise<void> {
  const ofOne = options.find((option) => OF_ONE_PART.test(option));
  if (ofOne !== undefined)
    throw new UsageError(`${ofOne} is about one part: leave it out for many logs, or review that log alone`);
  const logs = logsToReview(paths, outFolder);
  const progress = shareLine('Reviewing');
  const outcomes: Outcome[] = new Array(logs.length);
  let next = 0;
  let done = 0;
  const work = async (): Promise<void> => {
    while (next < logs.length) {
      const at = next++;
      outcomes[at] = await reviewOne(logs[at]!, options);
      progress.tell(++done / logs.length);
    }
  };
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), logs.length) }, work));
  progress.end();

  process.stdout.write(`${tableText(tableOf(outcomes.map(rowOf)))}\n\n`);
  const failed = outcomes.flatMap((outcome) => ('failed' in outcome ? [outcome] : []));
  process.stdout.write(
    `${logs.length - failed.length} of ${logs.length} logs reviewed: ${counts(outcomes)}\n`,
  );
  if (failed.length > 0)
    throw new TemperbookError(
      `${failed.length} of ${logs.length} logs could not be reviewed; the others were, and their records stand\n${failed
        .map(({ log, failed: why }) => `${log.path}: ${why}`)
        .join('\n')}`,
    );
}

function rowOf(outcome: Outcome) {
  const reviewed = 'reviewed' in outcome ? outcome.reviewed : undefined;
  return {
    Log: outcome.log.path,
    Verdict: reviewed?.verdict ?? 'not reviewed',
    'Chance it is enough': reviewed?.chance ?? '',
    Record: reviewed?.record ?? '',
  };
}

function counts(outcomes: readonly Outcome[]): string {
  const words = outcomes.map((outcome) => rowOf(outcome).Verdict);
  return [...new Set(words)]
    .map((word) => `${words.filter((one) => one === word).length} ${word}`)
    .join('; ');
}

/** Runs the command on one log in a process of its own; it answers by a message, or with what it said and its code. */
function reviewOne(log: LogToReview, options: readonly string[]): Promise<Outcome> {
  return new Promise((resolve) => {
    const child = fork(
      path.join(__dirname, '../main.js'),
      ['review', log.path, ...options, '--out', log.outFolder, '--units', unitsShown()],
      {
        stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
      },
    );
    let reviewed: ReviewedLog | undefined;
    let said = '';
    child.on('message', (message) => {
      reviewed = message as ReviewedLog;
    });
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    child.on('error', (error) => resolve({ log, failed: error.message }));
    child.on('close', (code, signal) => {
      if (code === 0 && reviewed) resolve({ log, reviewed });
      else resolve({ log, failed: withoutProgress(said) || `it ended by ${signal ?? `code ${code}`}` });
    });
  });
}

/** What a child said, without how far it had come. */
const withoutProgress = (said: string): string => said.replace(/^[\w ]+: \d+ %\n/gm, '').trim();
