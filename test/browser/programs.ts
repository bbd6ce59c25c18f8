import { accessSync, constants } from 'node:fs';
import path from 'node:path';

/** The first of some programs that is on the search path. */
function findProgram(...names: string[]): string | undefined {
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  return names.flatMap((name) => folders.map((folder) => path.join(folder, name))).find(isExecutable);
}

function isExecutable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** The browser that the tests of this folder drive; CI installs it. */
export const CHROMIUM = findProgram('chromium', 'chromium-browser', 'google-chrome');
