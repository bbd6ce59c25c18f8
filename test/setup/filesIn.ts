import { readdirSync } from 'node:fs';
import { NOTE_FILE } from '../../lib/record';

/** All a folder holds, but for the shelf's note of it. */
export const filesIn = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => name !== NOTE_FILE)
    .sort();
