import { TemperbookError } from '../../quantity';
import { checkReadings, type Reading } from '../../verify';
import { checkRecord } from '../checkRecord';
import type { Decision, DecisionRecord, SignOffLine } from '../decisionRecord';
import { jobSheet } from '../jobSheet';
import { changesBetween, OF_THE_EDITION } from './changesBetween';
import { sealRecord, type UnsealedRecord } from './seal';

/** What may be added to a record or corrected in it; the verdict may not. */
export interface Amendment {
  /** Read at the bench since, beside the probes of the record. */
  readonly readings?: readonly Reading[];
  readonly decision?: Decision;
  /** Lines of the job sheet, added or corrected. */
  readonly job?: Readonly<Record<string, unknown>>;
  /** Names and dates; a line of the same role is filled in, another is added. */
  readonly signOff?: readonly SignOffLine[];
  readonly writtenAt?: string;
}

/**
 * The next edition of a record: the same verdict, with a reading, a decision or a correction, what changed side by
 * side, and the hash of the edition it follows. The record given stays as it is.
 * @throws TemperbookError when nothing would change, for a reading beside a probe the record does not have, and as
 * `buildRecord`.
 */
export function amendRecord(before: DecisionRecord, amendment: Amendment): DecisionRecord {
  const { readings = [], decision, job = {}, signOff = [], writtenAt } = amendment;
  checkReadings(
    readings,
    before.verdict.channels.map(({ name }) => name),
  );
  const { hash: _, partHashes: __, writtenAt: ___, ...parts } = before;
  return nextEdition(before, {
    ...parts,
    ...(writtenAt === undefined ? {} : { writtenAt }),
    job: { ...before.job, ...jobSheet(job) },
    readings: [...before.readings, ...readings],
    ...(decision ? { decision } : {}),
    signOff: [
      ...before.signOff.map((line) => ({ ...line, ...signOff.find(({ role }) => role === line.role) })),
      ...signOff.filter(({ role }) => !before.signOff.some((line) => line.role === role)),
    ],
  });
}

/** `content` as the edition that follows `before`. @throws TemperbookError when it says nothing else. */
export function nextEdition(before: DecisionRecord, content: UnsealedRecord): DecisionRecord {
  const draft = sealRecord(JSON.parse(JSON.stringify(content)));
  if (saysTheSame(before, draft))
    throw new TemperbookError('This changes nothing in the record', {
      expected: 'a reading, a decision, a line of the job sheet or a signature that it does not hold yet',
    });
  const { hash: _, partHashes: __, ...parts } = draft;
  return checkRecord(
    sealRecord({
      ...parts,
      edition: before.edition + 1,
      before: before.hash,
      changes: changesBetween(before, draft),
    }),
  );
}

/** Whether two records differ in nothing but which edition they are and when they were written. */
export function saysTheSame(a: DecisionRecord, b: DecisionRecord): boolean {
  const names = Object.keys({ ...a.partHashes, ...b.partHashes });
  return names.every((name) => OF_THE_EDITION.includes(name) || a.partHashes[name] === b.partHashes[name]);
}
