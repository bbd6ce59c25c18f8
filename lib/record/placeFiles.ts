import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { TemperbookError } from '../quantity';

/** A file to be written: where, and its whole text. */
export interface NewFile {
  readonly path: string;
  readonly text: string;
}

/**
 * Writes several files that belong together, all of them or none: each is written beside its place first and
 * then takes its name; when one cannot, those already placed go back to what stood there.
 * @throws TemperbookError naming the file that could not be written.
 */
export function placeFiles(files: readonly NewFile[]): void {
  const undo: (() => void)[] = [];
  try {
    for (const { path, text } of files) {
      mkdirSync(dirname(path), { recursive: true });
      const unfinished = `${path}.unfinished-${process.pid}`;
      undo.push(() => rmSync(unfinished, { force: true }));
      writeFileSync(unfinished, text);
    }
    for (const { path } of files) {
      const before = existsSync(path) ? readFileSync(path) : undefined;
      renameSync(`${path}.unfinished-${process.pid}`, path);
      undo.push(() => (before ? writeFileSync(path, before) : rmSync(path, { force: true })));
    }
  } catch (error) {
    for (const step of undo.reverse()) step();
    throw new TemperbookError('The record could not be written, so nothing was', {
      file: files.map(({ path }) => path).join(' and '),
      found: error instanceof Error ? error.message : String(error),
      remedy: 'Check that the folder can be written to and has room',
    });
  }
}
