import type { CheckedProbe } from '../exposure';
import type { PlatePlan } from '../heatflow';
import { TemperbookError } from '../quantity';
import type { DecisionRecord, JobSheet } from '../record';
import type { FileReadOptions } from './fileToRead';
import type {
  JobFile,
  SaidEarlier,
  SaidLimits,
  SaidLot,
  SaidMeasuring,
  SaidMetal,
  SaidProbe,
  SaidRecovery,
  ShopDefaults,
} from './jobFile';

/** A metal as far as it was said. */
export interface JobMetal extends Partial<Omit<Exclude<SaidMetal, string>, 'alloy'>> {
  readonly alloy?: string;
  /** Words that leave it open: "like 356, temper not known". */
  readonly open?: string;
}

/** What is said of one probe, its metal taken apart. */
export interface JobProbe extends Omit<SaidProbe, 'metal'> {
  readonly metal?: JobMetal;
}

/** An earlier heat, its record read. */
export interface JobEarlier extends Pick<SaidEarlier, 'probes'> {
  readonly record: DecisionRecord;
}

/** A job file that was read and checked: every path whole, what the shop's defaults say filled in. */
export interface Job {
  /** The job file; absent where the job was given as an object. */
  readonly file?: string;
  /** Where its paths start. */
  readonly folder: string;
  /** What stands in the file. */
  readonly said: JobFile;
  /** Absent where nobody logged (`logOf`). */
  readonly log?: { readonly file: string; readonly read: FileReadOptions };
  readonly metal: JobMetal;
  readonly measuring: SaidMeasuring;
  readonly limits: SaidLimits;
  readonly probes: Readonly<Record<string, JobProbe>>;
  /** What the shop says of probes by a word in their names. */
  readonly named: readonly (JobProbe & Pick<NonNullable<ShopDefaults['probes']>[number], 'named'>)[];
  readonly lot?: SaidLot;
  readonly plan?: PlatePlan;
  /** What is known for its recovery; paths of schedules whole. */
  readonly recovery: SaidRecovery;
  readonly earlier: readonly JobEarlier[];
  /** Heaviest wall, mm, as the sheet says it. */
  readonly wallMm?: number;
  /** What a check of the probes found before the weld. */
  readonly check?: readonly CheckedProbe[];
  /** Lines of the record, part and serial among them. */
  readonly sheet: JobSheet;
}

/** The log of a job. @throws TemperbookError for a job without one. */
export function logOf({ log, file }: Job): NonNullable<Job['log']> {
  if (log) return log;
  throw new TemperbookError('The job has no log', {
    file,
    found: 'heats in words alone',
    expected: 'the key log, the path of the logger’s file',
    remedy: 'temperbook review answers from words; this question needs the trace itself',
  });
}

/** The same job about another file, or about its log read in another way. */
export const withLog = (job: Job, file: string, read: FileReadOptions): Job => ({
  ...job,
  said: { ...job.said, log: Object.keys(read).length > 0 ? { file, read } : file },
  log: { file, read },
});
