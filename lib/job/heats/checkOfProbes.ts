import { dirname, resolve } from 'node:path';
import { type CheckedProbe, checkProbes, parseCheckStep } from '../../exposure';
import { readLog } from '../../log';
import { dataCheck, readUserJson, refuseProblems } from '../../quantity';
import type { ThermocoupleType } from '../../thermocouple';
import type { FileOf } from '../fileToRead';
import { checkSchema } from '../schema/heatSchema';

/** A check of the probes before a weld: its own short log, and what was done when. */
export interface SaidCheck {
  readonly log: FileOf;
  /** Type of wire the logger was set to; K unless said. */
  readonly type?: ThermocoupleType;
  /** In words: "ice water 30s to 90s", "boiling water 2min to 3min at 1500m" (`parseCheckStep`). */
  readonly steps: readonly string[];
}

const problemsOf = dataCheck(checkSchema, 'the check');

/**
 * What a check of the probes found (`checkProbes`), from what a job or a file of its own says of it; its paths start at
 * `folder`, those of a file at its own.
 * @throws TemperbookError for a file that does not say log and steps, and as `readLog`, `parseCheckStep` and `checkProbes`.
 */
export function checkOfProbes(said: string | SaidCheck, folder: string): CheckedProbe[] {
  const file = typeof said === 'string' ? resolve(folder, said) : undefined;
  const data = file === undefined ? said : readUserJson(file, 'The check of the probes');
  refuseProblems('The check of the probes', problemsOf(data), { file });
  const { log, type, steps } = data as SaidCheck;
  const { file: path, read } = typeof log === 'string' ? { file: log, read: undefined } : log;
  const { channels } = readLog(resolve(file === undefined ? folder : dirname(file), path), read);
  return checkProbes(channels, steps.map(parseCheckStep), type);
}
