import { renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { TemperbookError } from '../quantity';

/**
 * Writes a file whole or not at all: `write` fills an unfinished one beside it, which then takes its name.
 * @throws TemperbookError when the place cannot be written to.
 */
export function writeWhole(path: string, write: (unfinished: string) => void): void {
  const unfinished = join(dirname(path), `.unfinished-${process.pid}-${basename(path)}`);
  try {
    write(unfinished);
    renameSync(unfinished, path);
  } catch (error) {
    rmSync(unfinished, { force: true });
    if (error instanceof TemperbookError) throw error;
    throw new TemperbookError('the file cannot be written', {
      file: path,
      found: (error as Error).message,
      remedy: 'Check that the folder exists and that you may write to it',
    });
  }
}
