import { readdirSync } from 'node:fs';
import path from 'node:path';
import { TemperbookError } from '../quantity';

/** Endings by which a log is known in a folder; a file named outright may have any. */
const LOG_ENDINGS = ['.csv', '.tsv', '.txt', '.dat', '.log'];

/**
 * The logs of a folder, sub-folders and all, as paths from it in the order of their names: files ending in .csv, .tsv,
 * .txt, .dat or .log, none hidden.
 * @throws TemperbookError for a folder that cannot be read or holds none.
 */
export function logsInFolder(folder: string): string[] {
  const files = filesOf(folder)
    .filter((file) => LOG_ENDINGS.includes(path.extname(file).toLowerCase()))
    .filter((file) => !file.split(path.sep).some((part) => part.startsWith('.')))
    .sort();
  if (files.length > 0) return files;
  throw new TemperbookError('there is no log in this folder', {
    file: folder,
    expected: `files ending in ${LOG_ENDINGS.join(', ')}`,
    remedy: 'Name files with another ending outright',
  });
}

function filesOf(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' });
  } catch (error) {
    throw new TemperbookError('the folder cannot be read', {
      file: folder,
      found: (error as Error).message,
      expected: 'a folder of logs',
    });
  }
}
