import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { inspect } from 'node:util';
import { runCommand } from '../../dist/cli/command';

const COMMAND = path.resolve('dist/cli/main.js');

/** What a command printed, and its exit code. */
export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the built command in a folder, as its file is run: by its own first line. */
export const asProcess = (folder: string, ...args: string[]): Ran =>
  spawnSync(COMMAND, args, { cwd: folder, encoding: 'utf8' });

/**
 * Runs the built command in a folder, in this process: a process of its own for each of some hundred commands takes
 * minutes in all.
 */
export async function temperbook(folder: string, ...args: string[]): Promise<Ran> {
  const streams = { stdout: process.stdout, stderr: process.stderr } as const;
  const printed = { stdout: '', stderr: '' };
  const before = process.cwd();
  const own = { stdout: process.stdout.write, stderr: process.stderr.write };
  const names = ['stdout', 'stderr'] as const;
  for (const name of names)
    streams[name].write = (text: string | Uint8Array) => {
      printed[name] += typeof text === 'string' ? text : Buffer.from(text).toString();
      return true;
    };
  process.chdir(folder);
  try {
    return { status: await runCommand(args), ...printed };
  } catch (error) {
    return { status: 1, stdout: printed.stdout, stderr: printed.stderr + inspect(error) };
  } finally {
    process.chdir(before);
    for (const name of names) streams[name].write = own[name];
  }
}
