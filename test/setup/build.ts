import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Tests of notebooks, commands and the package use the built library, as users do. It is built first unless
 * `npm test` just did.
 */
export default function build(): void {
  const built = statSync('dist/index.js', { throwIfNoEntry: false })?.mtimeMs ?? 0;
  const newest = Math.max(
    ...readdirSync('lib', { recursive: true, encoding: 'utf8' }).map(
      (file) => statSync(join('lib', file)).mtimeMs,
    ),
  );
  // Type errors are what `npm run check` is for: the compiler writes its output all the same.
  if (newest > built) spawnSync('npm', ['run', 'build'], { stdio: 'inherit' });
}
