import { createHash } from 'node:crypto';
import { readFileSync, type Stats, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeWhole } from '../../report';
import { kitVersion } from '../kitVersion';
import type { ShelfEntry } from './shelfEntry';

/** What reading one JSON file came to: an entry, what is wrong with it, or nothing where it is no record. */
export interface ReadFile {
  readonly entry?: ShelfEntry;
  readonly problems: readonly string[];
}

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

  /** What the file came to, as noted or, where it is new or was touched, as `read` finds it. */
  of(file: string, found: Stats, read: () => ReadFile): ReadFile {
    const noted = this.#old.get(file);
    const changedMs = Math.max(found.mtimeMs, found.ctimeMs);
    const isSame = noted?.bytes === found.size && noted.changedMs === changedMs;
    if (!isSame) this.#isNew = true;
    const now = isSame ? noted : { ...read(), bytes: found.size, changedMs };
    this.#now.set(file, now);
    return now;
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
