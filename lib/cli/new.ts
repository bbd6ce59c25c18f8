import { join } from 'node:path';
import { newJobFolder } from '../job';
import { onlyOne, shortest } from './usage';

/** `temperbook new <folder>` */
export async function newFolder(args: string[]): Promise<void> {
  const folder = onlyOne(args, 'the folder to make');
  const made = newJobFolder(folder);
  process.stdout.write(
    `Made ${made.map((name) => shortest(join(folder, name))).join(', ')}\n\nNext: temperbook review ${shortest(join(folder, 'job.json'))}\nThen put your own log beside it, and change job.json and shop-defaults.json.\n`,
  );
}
