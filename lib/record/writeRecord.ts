import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { TemperbookError } from '../quantity';
import { checkRecord } from './checkRecord';
import { type DecisionRecord, RECORD_FORM } from './decisionRecord';
import { placeFiles } from './placeFiles';
import { recordHtml } from './recordHtml';

/** Where a record went. */
export interface WrittenRecord {
  readonly html: string;
  readonly json: string;
}

/** A record carries its form near the start of both files. */
const HEAD_BYTES = 2000;

/**
 * Writes a record into a folder as one HTML page and one JSON file, both or neither. Their name comes from
 * the job, the part or the log unless `name` gives it. An earlier record of the same log is replaced; a record of
 * another log and any other file are left alone. The same record gives the same bytes.
 * @throws TemperbookError when the record is not whole, when another file stands in the way, or when the
 * folder cannot be written to.
 */
export function writeRecord(
  record: DecisionRecord,
  folder: string,
  name = recordName(record),
): WrittenRecord {
  checkRecord(record);
  if (!/^[\p{L}\p{N}][\p{L}\p{N}._ -]*$/u.test(name))
    throw new TemperbookError('A record cannot have this name', {
      found: JSON.stringify(name),
      expected: 'letters, digits, points, hyphens',
    });
  const written = { html: join(folder, `${name}.html`), json: join(folder, `${name}.json`) };
  for (const path of [written.html, written.json])
    if (existsSync(path) && !readFileSync(path, 'utf8').slice(0, HEAD_BYTES).includes(RECORD_FORM))
      throw new TemperbookError('Another file stands where the record would go', {
        file: path,
        remedy: 'Give the record another name or another folder',
      });
  checkSameLog(written.json, record);
  placeFiles([
    { path: written.json, text: recordJson(record) },
    { path: written.html, text: recordHtml(record) },
  ]);
  return written;
}

/** Loggers call every file log.csv: what stands there may be the record of another job. */
function checkSameLog(path: string, { log }: DecisionRecord): void {
  if (!existsSync(path)) return;
  const earlier = readEarlier(path);
  if (earlier.log?.sha256 === log?.sha256) return;
  throw new TemperbookError('The record of another log stands where this one would go', {
    file: path,
    found: `a record of ${earlier.log?.name ?? 'no log'}`,
    remedy: 'Name the job or the part, or give another folder',
  });
}

function readEarlier(path: string): Pick<DecisionRecord, 'log'> {
  try {
    return JSON.parse(readFileSync(path, 'utf8')) as DecisionRecord;
  } catch (error) {
    throw new TemperbookError('The record that stands there cannot be read', {
      file: path,
      found: error instanceof Error ? error.message : String(error),
      remedy: 'Move it away, or give another folder',
    });
  }
}

/** Indented for people, but with lists of numbers on one line each. */
function recordJson(record: DecisionRecord): string {
  const indented = JSON.stringify(record, undefined, 1);
  return `${indented.replace(/\[\n[-\d.enul,\s]+\]/g, (numbers) => numbers.replace(/\s+/g, ''))}\n`;
}

/** "j-1042-record": from the job's number, else the part, else the log's name. */
export function recordName({ job, log }: DecisionRecord): string {
  const from = String(job.job ?? job.part ?? log?.name.replace(/\.[^.]*$/, '') ?? 'temper');
  const plain = from
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return `${plain || 'temper'}-record`;
}
