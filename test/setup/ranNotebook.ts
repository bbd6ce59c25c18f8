import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { runNotebook } from '../../dist/notebook';

const LONGEST_WAIT_MS = 280_000;

/**
 * The folder of results of a committed notebook, which is run once for all tests: whoever asks first runs it, the others wait.
 * @throws Error with what the run said, for everyone who asks.
 */
export async function ranNotebook(name: string): Promise<string> {
  const folder = path.join(process.env.NOTEBOOK_RUNS!, path.basename(name, '.ipynb'));
  const end = `${folder}-ended.txt`;
  if (isFirst(folder)) {
    const failure = await runNotebook(path.join('notebooks', name), { outFolder: folder }).then(
      () => '',
      (error: unknown) => String(error),
    );
    writeFileSync(end, failure);
  }
  const startMs = Date.now();
  while (!existsSync(end)) {
    if (Date.now() - startMs > LONGEST_WAIT_MS)
      throw new Error(`${name} was not run to its end by another test`);
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  const failure = readFileSync(end, 'utf8');
  if (failure !== '') throw new Error(failure);
  return folder;
}

/** A folder can be made by one process only. */
function isFirst(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch {
    return false;
  }
}
