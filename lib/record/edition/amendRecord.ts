import { figureName, verdictFigure } from '../../figure';
import { TemperbookError } from '../../quantity';
import type { Attachment } from '../../thermocouple';
import { checkReadings, type Reading } from '../../verify';
import { checkRecord } from '../checkRecord';
import type { Decision, DecisionRecord, SignOffLine } from '../decisionRecord';
import { judgeAgain, tracesOf, whyNotAgain } from '../heat/judgeAgain';
import { asRecorded, recordedVerdict } from '../heat/recordedVerdict';
import { jobSheet } from '../jobSheet';
import { kitVersion } from '../kitVersion';
import { changesBetween, OF_THE_EDITION } from './changesBetween';
import { sealRecord, type UnsealedRecord } from './seal';

/** What may be added to a record or corrected in it. */
export interface Amendment {
  /** Read at the bench since, beside the probes of the record: the verdict is judged again with them. */
  readonly readings?: readonly Reading[];
  /** How a probe was really fixed, by its name: the verdict is judged again. */
  readonly attachments?: Readonly<Record<string, Attachment>>;
  readonly decision?: Decision;
  /** Lines of the job sheet, added or corrected. */
  readonly job?: Readonly<Record<string, unknown>>;
  /** Names and dates; a line of the same role is filled in, another is added. */
  readonly signOff?: readonly SignOffLine[];
  readonly writtenAt?: string;
}

/**
 * The next edition of a record, with a reading, a decision or a correction, what changed side by side, and the hash of the
 * edition it follows. A reading or another fixing judges again what the metal saw (`judgeAgain`); where the kit cannot, for
 * a card of the shop's own or a lot weighed with other members, a reading is noted beside the verdict. The record given stays as it is.
 * @throws TemperbookError when nothing would change, for a probe the record does not have, and as `buildRecord`.
 */
export function amendRecord(before: DecisionRecord, amendment: Amendment): DecisionRecord {
  const { readings = [], attachments = {}, decision, job = {}, signOff = [], writtenAt } = amendment;
  checkJudged(readings, before);
  checkReadings(
    readings,
    before.verdict.channels.map(({ name }) => name),
  );
  const { hash: _, partHashes: __, writtenAt: ___, ...parts } = before;
  const isOther = readings.length > 0 || Object.keys(attachments).length > 0;
  return nextEdition(before, {
    ...parts,
    ...(writtenAt === undefined ? {} : { writtenAt }),
    ...(isOther ? judgedParts(before, readings, attachments) : {}),
    job: { ...before.job, ...jobSheet(job) },
    ...(decision ? { decision } : {}),
    signOff: [
      ...before.signOff.map((line) => ({ ...line, ...signOff.find(({ role }) => role === line.role) })),
      ...signOff.filter(({ role }) => !before.signOff.some((line) => line.role === role)),
    ],
  });
}

/** A reading beside a probe that the log has and the record does not judge is refused with the reason. */
function checkJudged(readings: readonly Reading[], { verdict }: DecisionRecord): void {
  for (const { channel } of readings) {
    const left = verdict.notJudged.find(({ name }) => name === channel);
    if (left)
      throw new TemperbookError(
        `Nothing was judged at "${channel}", so a reading there has nothing to weigh`,
        {
          found: left.because,
          remedy: `Say in the job what it sits on (key probes."${channel}"), with the reading, and review it again: that makes the next edition`,
        },
      );
  }
}

/** The parts of a record that a new judgement changes. */
function judgedParts(
  before: DecisionRecord,
  readings: readonly Reading[],
  attachments: NonNullable<Amendment['attachments']>,
): Partial<DecisionRecord> {
  const all = [...before.readings, ...readings];
  if (Object.keys(attachments).length === 0 && whyNotAgain(before)) return { readings: all };
  const verdict = judgeAgain(before, { readings: all, attachments });
  const figure = verdictFigure(tracesOf(before), verdict);
  const caption = figureName(figure);
  return asRecorded({
    verdict: recordedVerdict(verdict),
    versions: { ...before.versions, temperbook: kitVersion() },
    figures: [{ caption, figure }, ...before.figures.filter((one) => one.caption !== caption)],
    readings: [],
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
