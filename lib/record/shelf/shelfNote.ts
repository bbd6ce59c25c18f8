import { createHash } from 'node:crypto';
import { appendFileSync, readFileSync, type Stats, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { writeWhole } from '../../report';
import type { DecisionRecord } from '../decisionRecord';
import { partsOfName } from '../files/recordName';
import { recordSchema } from '../recordSchema';
import type { ReadFile } from './readOne';
import { shelfEntry } from './shelfEntry';

/** What a file came to when every hash in it was checked, and how the file stood then. */
export interface NotedFile extends ReadFile {
  /** In the note's folder. */
  readonly file: string;
  readonly bytes: number;
  /** Of the file's last change of any kind, ms. */
  readonly changedMs: number;
  /** Of the whole file; nothing where it could not be read, which is not noted. */
  readonly sha256: string;
}

/** Where a folder's note of what was read of its records stands. */
export const NOTE_FILE = '.temperbook-shelf';
/** To be raised when a `ShelfEntry` changes, or what makes a record count as whole that its schema does not say. */
const FORM = `temperbook shelf 2 ${hashOf(JSON.stringify(recordSchema))}`;

/**
 * What is noted of a folder's records, so that a look at its shelf reads only what is new or was touched since. A line a
 * file, each with a hash of its own: who writes a record adds a line, whatever else is being written, and one that was
 * cut short, changed or written for another form of record counts for nothing. The note can be deleted at any time.
 */
export class ShelfNote {
  readonly #path: string;
  readonly #old: ReadonlyMap<string, NotedFile>;
  readonly #now: NotedFile[] = [];
  readonly #oldLines: number;

  constructor(folder: string) {
    this.#path = join(folder, NOTE_FILE);
    const lines = linesOf(this.#path);
    this.#oldLines = lines.length;
    this.#old = new Map(lines.flatMap(readLine).map((noted) => [noted.file, noted]));
  }

  /** What was noted of a file last, whether or not it was changed since. */
  of(file: string): NotedFile | undefined {
    return this.#old.get(file);
  }

  note(noted: NotedFile): void {
    this.#now.push(noted);
  }

  /** Writes the note whole or not at all where it is not as it was. @throws TemperbookError where it cannot be written. */
  keep(): void {
    const isAsItWas = this.#now.every((noted) => this.#old.get(noted.file) === noted);
    if (isAsItWas && this.#now.length === this.#oldLines) return;
    const sure = this.#now.filter(({ changedMs, sha256 }) => sha256 !== '' && isSettled(changedMs));
    const text = sure.map(lineOf).join('');
    writeWhole(this.#path, (unfinished) => writeFileSync(unfinished, text));
  }
}

/** Whether a file still stands as it was noted: of the same size, and not touched since in any way. */
export const standsAsNoted = (noted: NotedFile, found: Stats): boolean =>
  noted.bytes === found.size && noted.changedMs === changedMsOf(found);

/** When a file was last changed in any way, its name and rights included, ms. */
export const changedMsOf = ({ mtimeMs, ctimeMs }: Stats): number => Math.max(mtimeMs, ctimeMs);

/**
 * Notes a record that was just written as `text`, once a change of its file would show in the file's times, and only if
 * the file then holds what was written. Where that cannot be told at once, the next look at the shelf reads the record.
 */
export function noteWritten(path: string, record: DecisionRecord, text: string): void {
  try {
    const found = statSync(path);
    const changedMs = changedMsOf(found);
    if (!isFine(changedMs)) return;
    if (!isSettled(changedMs)) pause(2 * TICK_MS + 1);
    if (!isSettled(changedMs) || readFileSync(path, 'utf8') !== text) return;
    const file = basename(path);
    const { name } = partsOfName(file.slice(0, -'.json'.length));
    const entry = shelfEntry(record, file, name);
    const noted = { file, bytes: found.size, changedMs, sha256: hashOf(text), problems: [], entry };
    appendFileSync(join(dirname(path), NOTE_FILE), lineOf(noted));
  } catch {
    // The record is there; a shelf reads what is not noted.
  }
}

/** Clocks of file systems go in steps: of a few ms where their times have more digits than that, else of up to 2 s. */
const TICK_MS = 10;
const COARSE_MS = 2000;
const isFine = (changedMs: number): boolean => changedMs % TICK_MS !== 0;
/** So long after a change that a later one has another time. */
const isSettled = (changedMs: number): boolean =>
  Date.now() - changedMs > (isFine(changedMs) ? 2 * TICK_MS : COARSE_MS);

const pause = (ms: number): void => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
};

/** A line begins a new one, so that one that was cut short takes none with it. */
function lineOf(noted: NotedFile): string {
  const body = JSON.stringify(noted);
  return `\n${hashOf(FORM + body)} ${body}`;
}

function linesOf(path: string): string[] {
  try {
    return readFileSync(path, 'utf8').split('\n').slice(1);
  } catch {
    // No note, or none that can be read: everything is read anew.
    return [];
  }
}

function readLine(line: string): NotedFile[] {
  const at = line.indexOf(' ');
  const body = line.slice(at + 1);
  return line.slice(0, at) === hashOf(FORM + body) ? [JSON.parse(body)] : [];
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}
