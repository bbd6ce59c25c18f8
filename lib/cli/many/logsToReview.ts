import { statSync } from 'node:fs';
import path from 'node:path';
import { logsInFolder } from '../../log';
import { TemperbookError } from '../../quantity';

/** A log and the folder its record goes to. */
export interface LogToReview {
  readonly path: string;
  readonly outFolder: string;
}

/** Whether a folder lies there. */
export const isFolder = (at: string): boolean =>
  statSync(at, { throwIfNoEntry: false })?.isDirectory() ?? false;

/**
 * The logs that were named, and those of each folder named. The record of a log from a sub-folder goes to one of the
 * same name, so that two logs called alike do not meet.
 * @throws TemperbookError for a folder without logs, and for a log named twice.
 */
export function logsToReview(paths: readonly string[], outFolder: string): LogToReview[] {
  const logs = paths.flatMap((at) => (isFolder(at) ? logsIn(at, outFolder) : [{ path: at, outFolder }]));
  const seen = new Set<string>();
  for (const log of logs) {
    const whole = path.resolve(log.path);
    if (seen.has(whole))
      throw new TemperbookError('this log is named twice', { file: log.path, remedy: 'Name it once' });
    seen.add(whole);
  }
  return logs;
}

const logsIn = (folder: string, outFolder: string): LogToReview[] =>
  logsInFolder(folder).map((file) => ({
    path: path.join(folder, file),
    outFolder: path.join(outFolder, path.dirname(file)),
  }));
