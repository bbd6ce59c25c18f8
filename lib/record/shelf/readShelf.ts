import { readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { inWorkers, nowAndThen } from '../../quantity';
import { chainProblems, foldersOf, isJsonName } from '../files/lookAt';
import { partsOfName } from '../files/recordName';
import { sameNumberFindings } from '../files/sameNumber';
import { type FileToRead, type ReadFile, readOne } from './readOne';
import type { ShelfEntry } from './shelfEntry';
import { ShelfIndex } from './shelfIndex';

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
 * reason and stand for no part; an older, sound edition never stands in for a broken one. What was read is noted in the
 * folder (`ShelfIndex`), so that the next look reads only what changed; `auditFolder` reads everything.
 * @throws TemperbookError when the folder cannot be read.
 */
export function readShelf(folder: string, onProgress?: (share: number) => void): Shelf {
  const tell = nowAndThen(onProgress);
  const index = new ShelfIndex(folder);
  const files = foldersOf(folder)
    .flatMap(jsonFiles)
    .flatMap((path) => {
      const found = statSync(path, { throwIfNoEntry: false });
      return found ? [{ path, file: relative(folder, path), found }] : [];
    });
  const anew = files.filter(({ file, found }) => !index.noted(file, found));
  const read = readAll(anew, tell);
  const chains = new Map<string, Kept[]>();
  const problems: ShelfProblem[] = [];
  let otherFiles = 0;
  for (const { file, found } of files) {
    const what = read.get(file) ?? index.noted(file, found)!;
    index.note(file, found, what);
    const { entry, problems: own } = what;
    if (!entry && own.length === 0) {
      otherFiles++;
      continue;
    }
    for (const problem of own) problems.push({ file, problem });
    const { name, edition } = partsOfName(file.slice(0, -'.json'.length));
    const isSound = entry !== undefined && own.length === 0;
    chains.set(name, [...(chains.get(name) ?? []), { file, edition, ...(isSound ? { entry } : {}) }]);
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
    readAnew: anew.length,
    ...keepNote(index),
  };
}

interface Kept {
  readonly file: string;
  readonly edition: number;
  /** Absent where the file is damaged or was changed. */
  readonly entry?: ShelfEntry;
}

function jsonFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((one) => one.isFile() && isJsonName(one.name))
    .map(({ name }) => join(folder, name));
}

/** So many files are worth threads of their own, each of which loads the kit. */
const WORTH_THREADS = 200;

/** Reads files, many of them on several threads: most of the time goes into working out their hashes again. */
function readAll(
  files: readonly FileToRead[],
  onDone: (share: number) => void,
): ReadonlyMap<string, ReadFile> {
  const jobs = files.map(({ path, file }) => ({ path, file }));
  const read = inWorkers({ modulePath: join(__dirname, 'readOne'), name: 'readOne' }, readOne, jobs, {
    ...(files.length < WORTH_THREADS ? { workers: 0 } : {}),
    onDone,
  });
  return new Map(read.map((what, i) => [jobs[i]!.file, what]));
}

function keepNote(index: ShelfIndex): Pick<Shelf, 'notNoted'> {
  try {
    index.keep();
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
