import { mkdirSync } from 'node:fs';
import { TemperbookError, type Units } from '../../quantity';
import { checkRecord, checkSeal } from '../checkRecord';
import type { DecisionRecord } from '../decisionRecord';
import { nextEdition, saysTheSame } from '../edition/amendRecord';
import { recordHtml, unitsOfPage } from '../recordHtml';
import { noteWritten } from '../shelf/shelfNote';
import { editionsIn, filesOf, type StoredEdition } from './editionsIn';
import { removeLeftovers } from './leftovers';
import { placePage, placeRecord, type RecordFiles, textAt } from './placeRecord';
import { checkName, recordName } from './recordName';

/** Where a record went. */
export interface WrittenRecord extends RecordFiles {
  readonly edition: number;
  /** False when the same record stood there already. */
  readonly isNew: boolean;
}

/** Other writers can be first so often before something must be wrong. */
const MOST_TRIES = 20;

/**
 * Writes a record into a folder as one HTML page and one JSON file, both or neither. Their name comes from the job, the
 * part or the log unless `name` gives it. Nothing is ever replaced: what says the same as an edition that stands there
 * is that edition; anything else about the same log becomes the next edition beside it, with the hash of the one
 * before and what changed. The page shows `units`; the JSON file is the same either way. What a killed write left is taken away or finished.
 * @throws TemperbookError when the record was changed or says what cannot be, when another file, a folder, a link or
 * the record of another log stands in the way, or when the folder cannot be written to.
 */
export function writeRecord(
  record: DecisionRecord,
  folder: string,
  name = recordName(record),
  units: Units = 'metric',
): WrittenRecord {
  checkSeal(checkRecord(record));
  checkName(name);
  openFolder(folder);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const earlier = editionsIn(folder, name);
    for (const one of earlier) finishPage(one, units);
    const same = earlier.find((one) =>
      record.edition === 1 ? saysTheSame(one.record, record) : one.record.hash === record.hash,
    );
    if (same) showIn(same, units);
    if (same) return { ...same.files, edition: same.record.edition, isNew: false };
    const last = earlier[earlier.length - 1];
    const next = last ? following(last, record) : record;
    const files = filesOf(folder, name, next.edition);
    checkFree(files.html);
    const json = recordJson(next);
    if (placeRecord(files, json, recordHtml(next, units))) {
      noteWritten(files.json, next, json);
      return { ...files, edition: next.edition, isNew: true };
    }
  }
  throw new TemperbookError('Other programs keep writing editions of this record', {
    file: filesOf(folder, name, 1).json,
    remedy: 'Let one of them write at a time',
  });
}

function openFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
    removeLeftovers(folder);
  } catch (error) {
    throw new TemperbookError('The folder of the record cannot be opened', {
      file: folder,
      found: error instanceof Error ? error.message : String(error),
      remedy: 'Check that it is a folder and that you may write to it',
    });
  }
}

/** A write that was stopped after its JSON file left no page: it is made again. */
function finishPage({ files, record }: StoredEdition, units: Units): void {
  const page = textAt(files.html);
  if (page === undefined) placePage(files, recordHtml(record, units));
  else if (!page.includes(record.hash)) throw inTheWay(files.html);
}

/** The page of the same record, which may show other units. */
function showIn({ files, record }: StoredEdition, units: Units): void {
  if (unitsOfPage(textAt(files.html) ?? '') !== units) placePage(files, recordHtml(record, units));
}

function checkFree(path: string): void {
  if (textAt(path) !== undefined) throw inTheWay(path);
}

const inTheWay = (path: string): TemperbookError =>
  new TemperbookError('Another file stands where the record would go', {
    file: path,
    remedy: 'Move it away, or give the record another name or another folder',
  });

function following({ files, record: last }: StoredEdition, record: DecisionRecord): DecisionRecord {
  // Loggers call every file log.csv: what stands there may be the record of another job.
  if (last.log?.sha256 !== record.log?.sha256)
    throw new TemperbookError('The record of another log stands where this one would go', {
      file: files.json,
      found: `a record of ${last.log?.name ?? 'no log'}`,
      remedy: 'Name the job or the part, or give another folder',
    });
  if (record.edition === 1) {
    const { hash: _, partHashes: __, ...content } = record;
    return nextEdition(last, content);
  }
  if (record.before === last.hash) return record;
  throw new TemperbookError('This edition does not follow the last one that stands there', {
    file: files.json,
    found: `edition ${last.edition}`,
    remedy: 'Look at that one, and amend it instead',
  });
}

/** Indented for people, but with lists of numbers on one line each. */
function recordJson(record: DecisionRecord): string {
  const indented = JSON.stringify(record, undefined, 1);
  return `${indented.replace(/\[\n[-\d.enul,\s]+\]/g, (numbers) => numbers.replace(/\s+/g, ''))}\n`;
}
