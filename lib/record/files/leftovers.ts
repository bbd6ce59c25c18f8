import { readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';

const UNFINISHED = /^\.unfinished-(\d+)-.*\.(?:json|html|temperbook-shelf)$/;
/** No write takes this long, ms. */
const LONG_AGO_MS = 3_600_000;

/** Files that a killed or broken write of a record left in a folder: their writer is gone. */
export function leftovers(folder: string): string[] {
  return readdirSync(folder)
    .filter((file) => {
      const [, writer] = UNFINISHED.exec(file) ?? [];
      return writer !== undefined && (!isRunning(Number(writer)) || isOld(join(folder, file)));
    })
    .map((file) => join(folder, file));
}

/** Takes them away. One that cannot be taken away does no harm. */
export function removeLeftovers(folder: string): void {
  for (const path of leftovers(folder)) {
    try {
      rmSync(path, { force: true });
    } catch {
      // Somebody holds it; the next run tries again.
    }
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

function isOld(path: string): boolean {
  const found = statSync(path, { throwIfNoEntry: false });
  return found !== undefined && Date.now() - found.mtimeMs > LONG_AGO_MS;
}
