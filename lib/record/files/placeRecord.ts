import { lstatSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { TemperbookError } from '../../quantity';
import { discard, nameNew, unfinishedOf, writeWhole } from '../../report';

/** The two files of one edition. */
export interface RecordFiles {
  readonly html: string;
  readonly json: string;
}

/**
 * Puts a record in its place whole or not at all, and never over another. Both files are written beside their places
 * first; then the JSON file takes its name, which only one writer can get, and with it the record is there; then the
 * page does, which can always be made again from the JSON file. False when another record got the name first.
 * @throws TemperbookError naming what stands in the way or could not be written; then nothing was.
 */
export function placeRecord(files: RecordFiles, json: string, html: string): boolean {
  const unfinished = { json: unfinishedOf(files.json), html: unfinishedOf(files.html) };
  let placed = false;
  try {
    writeFileSync(unfinished.json, json, { flush: true });
    writeFileSync(unfinished.html, html, { flush: true });
    placed = nameNew(unfinished.json, files.json);
    if (placed) renameSync(unfinished.html, files.html);
    return placed;
  } catch (error) {
    if (placed) discard(files.json);
    throw notWritten(files, error);
  } finally {
    discard(unfinished.json);
    discard(unfinished.html);
  }
}

/** Writes a record's page by itself, where it is missing. */
export function placePage(files: RecordFiles, html: string): void {
  writeWhole(files.html, (unfinished) => writeFileSync(unfinished, html, { flush: true }));
}

/**
 * What stands at a path: nothing, or a file with its text.
 * @throws TemperbookError for a folder, a link or anything else a record must not go over or through.
 */
export function textAt(path: string): string | undefined {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (found === undefined) return undefined;
  if (!found.isFile())
    throw new TemperbookError('Something else stands where the record would go', {
      file: path,
      found: found.isDirectory() ? 'a folder' : found.isSymbolicLink() ? 'a link' : 'no ordinary file',
      remedy: 'Move it away, or give the record another name or another folder',
    });
  return readFileSync(path, 'utf8');
}

function notWritten({ json }: RecordFiles, error: unknown): TemperbookError {
  if (error instanceof TemperbookError) return error;
  return new TemperbookError('The record could not be written, so nothing was', {
    file: json,
    found: error instanceof Error ? error.message : String(error),
    remedy: 'Check that the folder can be written to, has room, and that no other program holds the file',
  });
}
