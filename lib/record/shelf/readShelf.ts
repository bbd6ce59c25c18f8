import { readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { inWorkers, nowAndThen } from '../../quantity';
import { chainProblems, foldersOf, isJsonName } from '../files/lookAt';
import { partsOfName } from '../files/recordName';
import { sameNumberFindings } from '../files/sameNumber';
import { type FileRead, type FileToRead, type ReadFile, readOne } from './readOne';
import type { ShelfEntry } from './shelfEntry';
import { changedMsOf, ShelfNote, standsAsNoted } from './shelfNote';

/** A part on the shelf: the newest edition of its record stands for it. */
export interface ShelfPart {
  readonly newest: ShelfEntry;
  /** All editions, first to last. */
  readonly editions: readonly ShelfEntry[];
}

/** What a register cannot take as it stands, and why. */
export interface ShelfProblem {
  /** From the shelf's folder. */
  readonly file: string;
  readonly problem: string;
  /** Its numbers are those of another part, and no copy would help. */
  readonly fileIsSound?: true;
}

/** A folder of records as a register of parts. */
export interface Shelf {
  readonly folder: string;
  /** Newest work first; those without a date last. */
  readonly parts: readonly ShelfPart[];
  /** Files that are damaged, changed by hand, out of their chain, or that share a number with another part. */
  readonly problems: readonly ShelfProblem[];
  /** JSON files that do not say that they are records. */
  readonly otherFiles: number;
  /** Records that were read anew; the others stood as they were noted. */
  readonly readAnew: number;
  /** Why the note of what was read could not be kept; absent where it was. */
  readonly notNoted?: string;
}

/**
 * The records of a folder and its subfolders as a register. Records that are damaged or changed by hand are named with the
 * reason and stand for no part; an older, sound edition never stands in for a broken one. Whoever writes a record notes it
 * in its folder (`noteWritten`), and what is read here is noted too, so that only what is new or was touched since is
 * read: its bytes where they are those that were noted, else every hash in it. `auditFolder` checks every hash of all.
 * @throws TemperbookError when the folder cannot be read.
 */
export function readShelf(folder: string, onProgress?: (share: number) => void): Shelf {
  const { files, readAnew, notNoted } = readFiles(folder, nowAndThen(onProgress));
  const chains = new Map<string, Kept[]>();
  const problems: ShelfProblem[] = [];
  let otherFiles = 0;
  for (const { file, entry, problems: own } of files) {
    if (!entry && own.length === 0) {
      otherFiles++;
      continue;
    }
    for (const problem of own) problems.push({ file, problem });
    const { name, edition } = partsOfName(file.slice(0, -'.json'.length));
    const isSound = entry !== undefined && own.length === 0;
    const kept = { file, edition, ...(isSound ? { entry: { ...entry, file } } : {}) };
    const chain = chains.get(name);
    if (chain) chain.push(kept);
    else chains.set(name, [kept]);
  }
  const parts = [...chains.values()].flatMap((chain) => {
    problems.push(...chainProblems(chain.map(({ entry, ...link }) => ({ ...link, ...entry }))));
    const editions = chain.sort((a, b) => a.edition - b.edition);
    const newest = editions[editions.length - 1]!.entry;
    return newest ? [{ newest, editions: editions.flatMap(({ entry }) => entry ?? []) }] : [];
  });
  return {
    folder,
    parts: parts.sort(newestFirst),
    problems: [...problems, ...sameNumberFindings(parts.map(({ newest }) => newest))],
    otherFiles,
    readAnew,
    ...(notNoted === undefined ? {} : { notNoted }),
  };
}

interface Kept {
  readonly file: string;
  readonly edition: number;
  /** Absent where the file is damaged or was changed. */
  readonly entry?: ShelfEntry;
}

interface FoundFile extends ReadFile {
  /** From the shelf's folder. */
  readonly file: string;
}

/** What every JSON file on the shelf comes to, from the notes of its folders as far as they hold, which are brought up to date. */
function readFiles(
  folder: string,
  tell: (share: number) => void,
): Pick<Shelf, 'readAnew' | 'notNoted'> & { readonly files: readonly FoundFile[] } {
  const found = foldersOf(folder).flatMap((at) => {
    const note = new ShelfNote(at);
    return jsonFiles(at).flatMap((name) => {
      const path = join(at, name);
      const stats = statSync(path, { throwIfNoEntry: false });
      return stats ? [{ path, name, note, stats, noted: note.of(name) }] : [];
    });
  });
  const anew = found.filter(({ noted, stats }) => !(noted && standsAsNoted(noted, stats)));
  const reads = readAll(
    anew.map(({ path, noted }) => ({ path, ...(noted ? { notedSha256: noted.sha256 } : {}) })),
    tell,
  );
  const readOf = new Map(anew.map((one, i) => [one, reads[i]!]));
  const files = found.map((one) => {
    const { path, name, note, stats, noted } = one;
    const now = readOf.get(one);
    const bytes = stats.size;
    const whole = now
      ? { ...(now.read ?? noted!), file: name, bytes, changedMs: changedMsOf(stats), sha256: now.sha256 }
      : noted!;
    note.note(whole);
    return { ...whole, file: relative(folder, path) };
  });
  return {
    files,
    readAnew: reads.filter(({ read }) => read).length,
    ...keepNotes(new Set(found.map(({ note }) => note))),
  };
}

function jsonFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((one) => one.isFile() && isJsonName(one.name))
    .map(({ name }) => name);
}

/** So many files are worth threads of their own, each of which loads the kit. */
const WORTH_THREADS = 200;

/** Reads files, many of them on several threads: most of the time goes into working out their hashes again. */
const readAll = (files: readonly FileToRead[], onDone: (share: number) => void): readonly FileRead[] =>
  inWorkers({ modulePath: join(__dirname, 'readOne'), name: 'readOne' }, readOne, files, {
    ...(files.length < WORTH_THREADS ? { workers: 0 } : {}),
    onDone,
  });

function keepNotes(notes: Iterable<ShelfNote>): Pick<Shelf, 'notNoted'> {
  try {
    for (const note of notes) note.keep();
    return {};
  } catch (error) {
    // A folder that cannot be written to is a shelf all the same, only a slower one.
    return { notNoted: error instanceof Error ? error.message : String(error) };
  }
}

/** What a part is called by: its number or name, and its serial. */
export const numberOf = ({
  partNumber,
  part,
  serial,
}: Pick<ShelfEntry, 'partNumber' | 'part' | 'serial'>): string =>
  [partNumber ?? part, serial].filter((text) => text !== undefined).join(', ');

const newestFirst = ({ newest: a }: ShelfPart, { newest: b }: ShelfPart): number =>
  (b.date ?? '').localeCompare(a.date ?? '') || a.file.localeCompare(b.file, 'en', { numeric: true });
