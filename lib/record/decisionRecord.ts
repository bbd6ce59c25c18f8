import type { ChannelVerdict, Verdict } from '../decision';
import type { Figure } from '../figure';
import type { Fault, LeftAside, RowAccount } from '../log';
import type { Judged } from '../quantity';
import type { VerdictWord } from '../strength';
import type { Reading, ReadingKind } from '../verify';
import type { RecordedExposure } from './heat/recordedExposure';
import type { RecordedLot } from './heat/recordedLot';
import type { JobSheet } from './jobSheet';

/** Name and version of the record's form; a reader of JSON files tells by it what it has before it. */
export const RECORD_FORM = 'temperbook decision record 3';

/** Any version of the kit's record has this near its start. */
export const ANY_FORM = 'temperbook decision record';
/** So far into a file its form is looked for, characters. */
export const HEAD = 2000;

/** What may be decided about a part: a closed list. */
export const DISPOSITIONS = [
  'accept',
  'accept with condition',
  're-age',
  're-heat-treat',
  'reject',
  'escalate',
] as const;
/** What was decided to do with the part. */
export type Disposition = (typeof DISPOSITIONS)[number];

/** Everything a decision rests on, as plain data; the HTML page is made from this and nothing else. */
export interface DecisionRecord {
  readonly form: typeof RECORD_FORM;
  /** SHA-256 of the canonical JSON (RFC 8785) of everything else in the record. */
  readonly hash: string;
  /** The same of each other part by itself, so that it can be told which was changed by hand. */
  readonly partHashes: Readonly<Record<string, string>>;
  /** 1, or one more than the edition it follows. */
  readonly edition: number;
  /** Hash of the edition it follows; absent on the first. */
  readonly before?: string;
  /** What it says otherwise than the edition it follows. */
  readonly changes: readonly Change[];
  /** When it was written, as the user gave it; the kit never asks a clock. */
  readonly writtenAt?: string;
  readonly versions: Readonly<Record<string, string>>;
  readonly job: JobSheet;
  /** Absent when no log was judged, a plan for instance. */
  readonly log?: RecordedLog;
  readonly verdict: RecordedVerdict;
  readonly figures: readonly RecordedFigure[];
  /** What else could have been done, or could have happened. */
  readonly options: readonly ConsideredOption[];
  /** Read at the bench after the verdict, which does not count them. */
  readonly readings: readonly Reading[];
  /** Absent while nobody has decided. */
  readonly decision?: Decision;
  readonly signOff: readonly SignOffLine[];
}

/** The log's identity and account, without its readings: the file itself is found by its SHA-256. */
export interface RecordedLog {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly startedAt?: string;
  readonly intervalS: number;
  readonly rows: RowAccount;
  readonly channels: readonly RecordedChannel[];
  readonly leftAside: readonly LeftAside[];
  readonly rowFaults: readonly Fault[];
  readonly notes: readonly string[];
}

/** How one channel of the log was read. */
export interface RecordedChannel {
  readonly name: string;
  readonly sourceUnit: string;
  /** Trusted readings. */
  readonly samples: number;
  readonly faults: readonly Fault[];
}

/** A verdict without the long arrays: the figures show them. */
export interface RecordedVerdict extends Omit<Verdict, 'channels' | 'lots' | 'madeWith'> {
  /** Absent on records from before it was kept. */
  readonly madeWith?: Verdict['madeWith'];
  readonly lots?: readonly RecordedLot[];
  readonly channels: readonly RecordedChannelVerdict[];
}

/** The verdict on one channel, with what its metal saw, thinned (`exposureOfRecord`). */
export interface RecordedChannelVerdict extends Omit<ChannelVerdict, 'track' | 'exposure' | 'earlier'> {
  readonly exposure: RecordedExposure;
  /** Heats of the part before this one that the verdict counts. */
  readonly earlier: readonly RecordedExposure[];
}

/** What two editions say of one thing. */
export interface Change {
  readonly what: string;
  readonly was: string;
  readonly now: string;
}

/** Kinds of bench readings, for the schema. */
export const READING_KINDS = [
  'brinell',
  'vickers',
  'rockwellE',
  'rockwellF',
  'rockwellB',
  'webster',
  'conductivity',
  'yield',
] as const satisfies readonly ReadingKind[];

/** A figure with its caption. */
export interface RecordedFigure {
  /** A sentence that says what is to be seen. */
  readonly caption: string;
  readonly figure: Figure;
}

/** One way to go on, or one way it could have run. */
export interface ConsideredOption {
  readonly name: string;
  readonly yieldKeptFraction: Judged;
  /** Ultimate strength kept; null where no source carries it. */
  readonly ultimateKeptFraction?: Judged | null;
  /** Chance that the loss stays within the allowance; null where a record is blind. */
  readonly chanceKept?: number | null;
  readonly verdict?: VerdictWord;
  /** Time it takes or took, s. */
  readonly timeS?: number;
  /** Why it was or was not chosen. */
  readonly remark?: string;
}

/** What was decided, and why. */
export interface Decision {
  readonly disposition: Disposition;
  /** What must hold for `accept with condition`. */
  readonly condition?: string;
  readonly reason: string;
  /** The rule that was fixed before measuring, in words (`dispositionRule`). */
  readonly rule?: string;
}

/** A line to be signed by hand, or filled in. */
export interface SignOffLine {
  readonly role: string;
  readonly name?: string;
  readonly date?: string;
}
