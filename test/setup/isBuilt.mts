import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Whether `dist` was built from the library as it stands. */
export function isBuilt(): boolean {
  const built = statSync('dist/index.js', { throwIfNoEntry: false })?.mtimeMs ?? 0;
  const files = readdirSync('lib', { recursive: true, encoding: 'utf8' });
  return files.every((file) => statSync(join('lib', file)).mtimeMs <= built);
}
