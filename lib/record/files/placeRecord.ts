import { existsSync, linkSync, lstatSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { TemperbookError } from '../../quantity';

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
    if (placed) remove(files.json);
    throw notWritten(files, error);
  } finally {
    remove(unfinished.json);
    remove(unfinished.html);
  }
}

/** Writes a record's page by itself, where it is missing. */
export function placePage(files: RecordFiles, html: string): void {
  const unfinished = unfinishedOf(files.html);
  try {
    writeFileSync(unfinished, html, { flush: true });
    renameSync(unfinished, files.html);
  } catch (error) {
    throw notWritten(files, error);
  } finally {
    remove(unfinished);
  }
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

/** Gives a finished file its name unless that is taken. */
function nameNew(unfinished: string, path: string): boolean {
  try {
    linkSync(unfinished, path);
    return true;
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EEXIST') return false;
    if (!NO_LINKS.includes(code)) throw error;
    // A stick or a share without links: look, then name.
    if (existsSync(path)) return false;
    renameSync(unfinished, path);
    return true;
  }
}

/** What systems say that know no second name for a file. */
const NO_LINKS = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EISDIR'];

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : '';

const unfinishedOf = (path: string): string =>
  join(dirname(path), `.${basename(path)}.unfinished-${process.pid}`);

function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // It stays as a leftover, which the next run takes away.
  }
}

function notWritten({ json }: RecordFiles, error: unknown): TemperbookError {
  if (error instanceof TemperbookError) return error;
  return new TemperbookError('The record could not be written, so nothing was', {
    file: json,
    found: error instanceof Error ? error.message : String(error),
    remedy: 'Check that the folder can be written to, has room, and that no other program holds the file',
  });
}
