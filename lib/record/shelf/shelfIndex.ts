import { createHash } from 'node:crypto';
import { readFileSync, type Stats, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeWhole } from '../../report';
import { kitVersion } from '../kitVersion';
import type { ReadFile } from './readOne';

/** A file as it stood when it was read. */
interface Noted extends ReadFile {
  readonly bytes: number;
  readonly changedMs: number;
}

/** Where a shelf notes what it has read. */
export const INDEX_FILE = '.temperbook-shelf';
const FORM = 'temperbook shelf 1';
/** Clocks of file systems can be this coarse, ms: what changed so shortly before the note is read again. */
const COARSE_MS = 2000;

/**
 * What was read of a folder's records the last time, so that only what is new or was touched since is read again. A file is
 * taken as read when its size and the time of its last change of any kind are the same; the note carries its own hash, and
 * one of another version of the kit or that does not fit counts for nothing. It can be deleted at any time.
 */
export class ShelfIndex {
  readonly #folder: string;
  readonly #old: ReadonlyMap<string, Noted>;
  readonly #now = new Map<string, Noted>();
  #isNew = false;

  constructor(folder: string) {
    this.#folder = folder;
    this.#old = readIndex(folder);
  }

  /** What the file came to when it was read as it stands now; undefined where it is new or was touched since. */
  noted(file: string, found: Stats): ReadFile | undefined {
    const noted = this.#old.get(file);
    return noted?.bytes === found.size && noted.changedMs === changedMsOf(found) ? noted : undefined;
  }

  /** Notes what a file came to that was found so before it was read. */
  note(file: string, found: Stats, read: ReadFile): void {
    if (this.#old.get(file) !== read) this.#isNew = true;
    this.#now.set(file, { ...read, bytes: found.size, changedMs: changedMsOf(found) });
  }

  /** Writes the note whole or not at all. @throws TemperbookError where it cannot be written. */
  keep(): void {
    if (!this.#isNew && this.#now.size === this.#old.size) return;
    const settledMs = Date.now() - COARSE_MS;
    const settled = [...this.#now].filter(([, { changedMs }]) => changedMs < settledMs);
    const body = JSON.stringify({ form: FORM, kit: kitVersion(), files: settled });
    writeWhole(join(this.#folder, INDEX_FILE), (unfinished) =>
      writeFileSync(unfinished, `${hashOfText(body)}\n${body}`),
    );
  }
}

const changedMsOf = ({ mtimeMs, ctimeMs }: Stats): number => Math.max(mtimeMs, ctimeMs);

function readIndex(folder: string): ReadonlyMap<string, Noted> {
  try {
    const text = readFileSync(join(folder, INDEX_FILE), 'utf8');
    const line = text.indexOf('\n');
    const body = text.slice(line + 1);
    if (text.slice(0, line) !== hashOfText(body)) return new Map();
    const { form, kit, files } = JSON.parse(body);
    return form === FORM && kit === kitVersion() ? new Map(files) : new Map();
  } catch {
    // No note, or none that can be read: everything is read anew.
    return new Map();
  }
}

const hashOfText = (text: string): string => createHash('sha256').update(text).digest('hex');
