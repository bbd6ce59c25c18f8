import { readFileSync } from 'node:fs';

/** Whether node_modules is what the lock file asks for: CI must have it so, elsewhere `npm ci` mends it. */
export const isInstalled =
  process.env.CI !== undefined ||
  JSON.parse(readFileSync('node_modules/mathjs/package.json', 'utf8')).name === 'temperbook-maths';
