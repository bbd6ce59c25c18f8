import { basename } from 'node:path';
import { lookAt } from '../files/lookAt';
import { type ShelfEntry, shelfEntry } from './shelfEntry';

/** What reading one JSON file came to: an entry, what is wrong with it, or nothing where it is no record. */
export interface ReadFile {
  readonly entry?: ShelfEntry;
  readonly problems: readonly string[];
}

/** A JSON file, and how it is called from the shelf's folder. */
export interface FileToRead {
  readonly path: string;
  readonly file: string;
}

/** Reads a file and checks every hash in it; also what a worker calls. */
export function readOne({ path, file }: FileToRead): ReadFile {
  const seen = lookAt(path, basename(path));
  if (!seen) return { problems: [] };
  const { record, problems, name } = seen;
  return { problems, ...(record ? { entry: shelfEntry(record, file, name) } : {}) };
}
