import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { vi } from 'vitest';
import { buildRecord, readShelf, type Shelf, type WrittenRecord, writeRecord } from '../../../lib/record';
import { sampleParts } from '../samples';

export const newFolder = (): string => mkdtempSync(path.join(tmpdir(), 'shelf-'));

/** Writes a small record of a part: the sample job without its picture, and without any date but the one given. */
export function put(folder: string, job: Readonly<Record<string, string>>, name?: string): WrittenRecord {
  const { verdict, log } = sampleParts();
  const { startedAt: _, ...undated } = log!;
  return writeRecord(buildRecord({ verdict, log: undated, job, figures: [] }), folder, name);
}

export const edit = (file: string, change: (text: string) => string): void =>
  writeFileSync(file, change(readFileSync(file, 'utf8')));

/** Reads a shelf as if a while had gone by since its files were written. */
export function readLater(folder: string): Shelf {
  const later = vi.spyOn(Date, 'now').mockReturnValue(Date.now() + 60_000);
  const shelf = readShelf(folder);
  later.mockRestore();
  return shelf;
}
