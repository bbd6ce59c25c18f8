import { spawnSync } from 'node:child_process';
import path from 'node:path';

const COMMAND = path.resolve('dist/cli/main.js');

/** Runs the built command in a folder, as its file is run: by its own first line. */
export function temperbook(folder: string, ...args: string[]) {
  return spawnSync(COMMAND, args, { cwd: folder, encoding: 'utf8' });
}
