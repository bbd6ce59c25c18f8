import { existsSync, linkSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { TemperbookError } from '../../quantity';

/**
 * The file that is filled first, beside the one it becomes; its ending is that of the
 * whole one, by which some writers go, and a later write tells by its name what a killed one left.
 */
export const unfinishedOf = (path: string): string =>
  join(dirname(path), `.unfinished-${process.pid}-${basename(path)}`);

/**
 * Writes a file whole or not at all, in the place of what stands there: `write` fills an unfinished one beside it, which
 * then takes its name.
 * @throws TemperbookError when the place cannot be written to.
 */
export function writeWhole(path: string, write: (unfinished: string) => void): void {
  const unfinished = unfinishedOf(path);
  try {
    write(unfinished);
    renameSync(unfinished, path);
  } catch (error) {
    throw notWritten(path, error);
  } finally {
    discard(unfinished);
  }
}

/**
 * Writes a file whole or not at all, and never over another. False when something stands there already.
 * @throws TemperbookError when the place cannot be written to.
 */
export function writeNew(path: string, text: string): boolean {
  const unfinished = unfinishedOf(path);
  try {
    writeFileSync(unfinished, text, { flush: true });
    return nameNew(unfinished, path);
  } catch (error) {
    throw notWritten(path, error);
  } finally {
    discard(unfinished);
  }
}

/** Gives a finished file its name unless that is taken; only one writer can get it. */
export function nameNew(unfinished: string, path: string): boolean {
  try {
    linkSync(unfinished, path);
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
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

/** Takes an unfinished file away. One that somebody holds does no harm. */
export function discard(unfinished: string): void {
  try {
    rmSync(unfinished, { force: true });
  } catch {
    // It stays as a leftover.
  }
}

function notWritten(path: string, error: unknown): TemperbookError {
  if (error instanceof TemperbookError) return error;
  return new TemperbookError('the file cannot be written', {
    file: path,
    found: error instanceof Error ? error.message : String(error),
    remedy: 'Check that the folder exists, has room, and that you may write to it',
  });
}
