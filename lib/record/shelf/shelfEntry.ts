import type { VerdictWord } from '../../strength';
import type { Decision, DecisionRecord, RecordedChannelVerdict } from '../decisionRecord';

/** A judged place of a part, in the few numbers a register shows. */
export interface ShelfPlace {
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  readonly verdict: VerdictWord;
  readonly chanceKept: number | null;
  readonly keptFraction: { readonly nominal: number; readonly low: number; readonly high: number };
  readonly peakC: number;
  /** The shop's limit, and the time above it as read; absent where the alloy has none. */
  readonly limitC?: number;
  readonly aboveLimitS?: number;
}

/** One edition of a record, in the few numbers a register shows. */
export interface ShelfEntry {
  /** Its JSON file, from the shelf's folder. */
  readonly file: string;
  /** What its editions are called together. */
  readonly name: string;
  readonly edition: number;
  readonly hash: string;
  readonly before?: string;
  /** From the job sheet. */
  readonly job?: string;
  readonly part?: string;
  readonly partNumber?: string;
  readonly serial?: string;
  /** Of the work: as the job sheet says, else as the log does, "2031-05-14"; absent where neither does. */
  readonly date?: string;
  readonly log?: string;
  readonly alloy: string;
  readonly temper: string;
  readonly verdict: VerdictWord;
  readonly chanceKept: number | null;
  readonly places: readonly ShelfPlace[];
  /** It counts heats before its own: the part was on the shelf before. */
  readonly countsEarlier: boolean;
  readonly decision?: Decision;
  /** What the numbers were made with: the kit's version, and hashes of members and cards. */
  readonly madeWith: Readonly<Record<string, string>>;
}

/** A record as an entry of the shelf. */
export function shelfEntry(record: DecisionRecord, file: string, name: string): ShelfEntry {
  const { job, log, verdict, decision, before } = record;
  const date = dateOf(job.date) ?? dateOf(log?.startedAt) ?? dateOf(record.writtenAt);
  return {
    file,
    name,
    edition: record.edition,
    hash: record.hash,
    ...(before === undefined ? {} : { before }),
    ...textOf('job', job.job),
    ...textOf('part', job.part),
    ...textOf('partNumber', job.partNumber),
    ...textOf('serial', job.serial),
    ...(date === undefined ? {} : { date }),
    ...(log ? { log: log.name } : {}),
    alloy: verdict.alloy,
    temper: verdict.temper,
    verdict: verdict.verdict,
    chanceKept: verdict.chanceKept,
    places: verdict.channels.map(placeOf),
    countsEarlier: verdict.channels.some(({ earlier }) => earlier.length > 0),
    ...(decision ? { decision } : {}),
    madeWith: recordMadeWith(record),
  };
}

/** What the numbers of a record were made with. */
export const recordMadeWith = ({ versions, verdict }: DecisionRecord): ShelfEntry['madeWith'] => ({
  temperbook: versions.temperbook ?? 'unknown',
  ...verdict.madeWith,
});

function placeOf(channel: RecordedChannelVerdict): ShelfPlace {
  const { name, alloy, temper, verdict, chanceKept, yieldKeptFraction, peakC, limits } = channel;
  const { nominal, low, high } = yieldKeptFraction;
  const [shop] = limits;
  return {
    name,
    alloy,
    temper,
    verdict,
    chanceKept,
    keptFraction: { nominal, low, high },
    peakC: peakC.nominal,
    ...(shop ? { limitC: shop.limitC, aboveLimitS: shop.timeAboveS.nominal } : {}),
  };
}

/** The day in a stamp that begins with one. */
const dateOf = (stamp: unknown): string | undefined => /^\d{4}-\d{2}-\d{2}/.exec(String(stamp ?? ''))?.[0];

const textOf = <K extends string>(key: K, value: unknown): { readonly [name in K]?: string } =>
  (value === undefined ? {} : { [key]: String(value) }) as { readonly [name in K]?: string };
