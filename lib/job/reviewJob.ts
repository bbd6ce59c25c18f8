import { type JudgeOptions, judge, settleReadings, type Verdict } from '../decision';
import { verdictFigure } from '../figure';
import { readLog, type ThermalLog, undecidedError } from '../log';
import type { RecordParts } from '../record';
import { type Asked, askedOf, heatAsked } from './asked';
import { toldPart } from './heats/toldPart';
import { type Job, logOf } from './job';
import { jobOptions, toldOptions } from './jobOptions';

/** What a job came to. */
export interface Review {
  readonly job: Job;
  /** Absent where nobody logged. */
  readonly log?: ThermalLog;
  /** With these `judge` gives the same answer on the same log, or on what the places saw (`toldPart`). */
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
 * every way in which the file may be meant. Of a job without a log it judges the heats that were told (`toldPart`).
 * @throws TemperbookError as `readLog`, `jobOptions` and `judge`, and where the word hangs on how the file is meant.
 */
export function reviewJob(job: Job, { log: given, onReading, onJudging }: ReviewOptions = {}): Review {
  const telling = onJudging ? { onProgress: onJudging } : {};
  if (!job.log && !given) return reviewTold(job, telling);
  const file = logOf(job);
  const read = given ?? readLog(file.file, { ...file.read, ...(onReading ? { onProgress: onReading } : {}) });
  const options = jobOptions(job, read);
  const { log, same, undecided } = settleReadings(read, (other) => readLog(file.file, other), options);
  if (undecided) throw undecidedError(undecided);
  const verdict = judge(log, { ...options, ...telling });
  return {
    job,
    log,
    options,
    verdict,
    same,
    asked: askedOf(job, log),
    record: { verdict, log, ...restOfRecord(job) },
  };
}

/** The review of heats that nobody logged. */
function reviewTold(job: Job, telling: Pick<JudgeOptions, 'onProgress'>): Review {
  const { part, asks } = toldPart(job);
  const options = toldOptions(
    job,
    part.places.map(({ name }) => name),
  );
  const verdict = judge(part, { ...options, ...telling });
  const traces = part.places.map(({ name, exposure }) => ({ name, history: exposure.history }));
  return {
    job,
    options,
    verdict,
    same: [],
    asked: asks.flatMap((questions, k) => questions.map((question) => heatAsked(question, k))),
    record: { verdict, figures: [verdictFigure(traces, verdict)], ...restOfRecord(job) },
  };
}

/** What the job says for its record. */
function restOfRecord(job: Job): Omit<RecordParts, 'verdict'> {
  const { decision, people } = job.said;
  return {
    job: job.sheet,
    ...(decision ? { decision } : {}),
    ...(people
      ? { signOff: Object.entries(people).map(([role, name]) => ({ role, ...(name ? { name } : {}) })) }
      : {}),
  };
}
