import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { lookAt } from '../files/lookAt';
import { type ShelfEntry, shelfEntry } from './shelfEntry';

/** What reading one JSON file came to: an entry, what is wrong with it, or nothing where it is no record. */
export interface ReadFile {
  readonly entry?: ShelfEntry;
  readonly problems: readonly string[];
}

/** A JSON file to be read, unless it still holds what it held when its SHA-256 was noted. */
export interface FileToRead {
  readonly path: string;
  readonly notedSha256?: string;
}

/** A file's SHA-256, nothing where it could not be read; and what it came to where that is not the one noted. */
export interface FileRead {
  readonly sha256: string;
  readonly read?: ReadFile;
}

/** Reads a file and checks every hash in it; also what a worker calls. */
export function readOne({ path, notedSha256 }: FileToRead): FileRead {
  const file = basename(path);
  let bytes: Buffer | undefined;
  try {
    bytes = readFileSync(path);
  } catch {
    // What keeps it from being read is told by `lookAt`.
  }
  const sha256 = bytes ? createHash('sha256').update(bytes).digest('hex') : '';
  if (bytes && sha256 === notedSha256) return { sha256 };
  const seen = lookAt(path, file, bytes);
  if (!seen) return { sha256, read: { problems: [] } };
  const { record, problems, name } = seen;
  return { sha256, read: { problems, ...(record ? { entry: shelfEntry(record, file, name) } : {}) } };
}
