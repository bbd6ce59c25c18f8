import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Version of the installed kit, from its package.json. */
export function kitVersion(): string {
  const text = readFileSync(join(__dirname, '..', '..', 'package.json'), 'utf8');
  return /"version": *"([^"]+)"/.exec(text)?.[1] ?? 'unknown';
}
