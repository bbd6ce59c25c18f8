import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isBuilt } from './isBuilt.mjs';

/**
 * Tests of notebooks, commands and the package use the built library, as users do. It is built first unless
 * `npm test` just did. Notebooks that more than one test looks at are run once, into a folder that is gone in the end.
 */
export default function build(): () => void {
  // Type errors are what `npm run check` is for: the compiler writes its output all the same.
  if (!isBuilt()) spawnSync('npm', ['run', 'build'], { stdio: 'inherit' });
  // Set up once for each project of the suite: they share the folder of the first.
  if (process.env.NOTEBOOK_RUNS !== undefined) return () => undefined;
  const runs = mkdtempSync(join(tmpdir(), 'notebook-runs-'));
  process.env.NOTEBOOK_RUNS = runs;
  return () => rmSync(runs, { recursive: true });
}
