import type { ChannelVerdict, Verdict } from '../decision';
import type { Figure } from '../figure';
import type { Fault, LeftAside, RowAccount } from '../log';
import type { Judged } from '../quantity';
import type { VerdictWord } from '../strength';
import type { JobSheet } from './jobSheet';

/** Name and version of the record's form; a reader of JSON files tells by it what it has before it. */
export const RECORD_FORM = 'temperbook decision record 1';

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

/** A verdict without the long arrays, which the figures show. */
export interface RecordedVerdict extends Omit<Verdict, 'channels'> {
  readonly channels: readonly Omit<ChannelVerdict, 'track'>[];
}

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
}

/** A line to be signed by hand, or filled in. */
export interface SignOffLine {
  readonly role: string;
  readonly name?: string;
  readonly date?: string;
}
