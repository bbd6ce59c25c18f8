import { TemperbookError } from '../../quantity';

/** Welding processes as a caller may name them; EN 1999-1-1 knows MIG and TIG, and TIG whatever the current. */
export type CodeProcess = 'MIG' | 'TIG' | 'TIG AC' | 'TIG DC';

const PROCESSES: ReadonlyMap<string, 'MIG' | 'TIG'> = new Map([
  ['MIG', 'MIG'],
  ['TIG', 'TIG'],
  ['TIG AC', 'TIG'],
  ['TIG DC', 'TIG'],
]);

/**
 * The process as the tables of EN 1999-1-1 name it.
 * @throws TemperbookError for any other: TIG softens more than MIG, so a guess would be unsafe.
 */
export function codeProcess(process: CodeProcess): 'MIG' | 'TIG' {
  const known = PROCESSES.get(process);
  if (known) return known;
  throw new TemperbookError('EN 1999-1-1 has no soft zone for this welding process', {
    found: String(process),
    expected: `one of ${[...PROCESSES.keys()].join(', ')}`,
    remedy: 'Write it as it stands here, or measure hardness across the weld',
  });
}
