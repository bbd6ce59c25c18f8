import { type JudgeOptions, judge, settleReadings, undecidedError, type Verdict } from '../decision';
import { readLog, type ThermalLog } from '../log';
import type { RecordParts } from '../record';
import { type Asked, askedOf } from './asked';
import type { Job } from './job';
import { jobOptions } from './jobOptions';

/** What a job came to. */
export interface Review {
  readonly job: Job;
  readonly log: ThermalLog;
  /** With these `judge` gives the same answer on the same log. */
  readonly options: JudgeOptions;
  readonly verdict: Verdict;
  /** Ways in which the file may be meant that make no difference, in sentences. */
  readonly same: readonly string[];
  /** What nobody said, and what was taken for it. */
  readonly asked: readonly Asked[];
  /** For `buildRecord`; figures and ways to go on may be added. */
  readonly record: RecordParts;
}

/** What `reviewJob` may be told besides the job. */
export interface ReviewOptions {
  /** The log of the job, where it has been read already. */
  readonly log?: ThermalLog;
  /** How far reading and judging have come, as of `readLog` and `judge`. */
  readonly onReading?: (share: number) => void;
  readonly onJudging?: (share: number) => void;
}

/**
 * Reads the log of a job, judges it, and gathers what a record needs. The verdict is that of `judge` with `options`, in
 * every way in which the file may be meant.
 * @throws TemperbookError as `readLog`, `jobOptions` and `judge`, and where the word hangs on how the file is meant.
 */
export function reviewJob(job: Job, { log: given, onReading, onJudging }: ReviewOptions = {}): Review {
  const read =
    given ?? readLog(job.log.file, { ...job.log.read, ...(onReading ? { onProgress: onReading } : {}) });
  const options = jobOptions(job, read);
  const { log, same, undecided } = settleReadings(read, (other) => readLog(job.log.file, other), options);
  if (undecided) throw undecidedError(undecided);
  const verdict = judge(log, { ...options, ...(onJudging ? { onProgress: onJudging } : {}) });
  const { decision, people } = job.said;
  return {
    job,
    log,
    options,
    verdict,
    same,
    asked: askedOf(job, log),
    record: {
      verdict,
      log,
      job: job.sheet,
      ...(decision ? { decision } : {}),
      ...(people
        ? { signOff: Object.entries(people).map(([role, name]) => ({ role, ...(name ? { name } : {}) })) }
        : {}),
    },
  };
}
