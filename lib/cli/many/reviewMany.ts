import { availableParallelism } from 'node:os';
import { tableText } from '../../figure';
import { TemperbookError } from '../../quantity';
import { tableOf } from '../../report';
import { unitsShown } from '../say';
import { shareLine } from '../shareLine';
import { UsageError } from '../usage';
import { type LogToReview, logsToReview } from './logsToReview';
import { type Answer, startReviewer } from './startReviewer';

/** What came of one log. */
type Outcome = { readonly log: LogToReview } & Answer;

/** What is true of one part cannot be said of many. */
const OF_ONE_PART = /^--reading$|^(job|part)=/;

/**
 * Reviews many logs, each exactly as `temperbook review` of that log alone would, as many at a time as the machine has
 * cores. One that fails takes nothing with it; one whose process ended is tried once more in a new one, as what ended it
 * may have been another's. Prints a line per log in the order given.
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
    let reviewer = startReviewer();
    while (next < logs.length) {
      const at = next++;
      const log = logs[at]!;
      const args = [log.path, ...options, '--out', log.outFolder, '--units', unitsShown()];
      let answer = await reviewer.review(args);
      if (reviewer.hasEnded()) {
        reviewer = startReviewer();
        answer = await reviewer.review(args);
        if (reviewer.hasEnded()) reviewer = startReviewer();
      }
      outcomes[at] = { log, ...answer };
      progress.tell(++done / logs.length);
    }
    reviewer.end();
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
