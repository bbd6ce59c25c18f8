import { dirname, resolve } from 'node:path';
import { dataCheck, readUserJson, refuseProblems } from '../quantity';
import type { Job, JobMetal } from './job';
import type { ShopDefaults } from './jobFile';
import { jobMetal, metalOfProbe } from './jobMetal';
import { defaultsSchema } from './schema/jobSchema';

/** What a shop's defaults say, read. */
export interface Defaults extends Pick<Job, 'measuring' | 'limits' | 'named'> {
  readonly metal: JobMetal;
}

/** Nothing said. */
export const NO_DEFAULTS: Defaults = { metal: {}, measuring: {}, limits: {}, named: [] };

const check = dataCheck(defaultsSchema, 'the file');

/**
 * Reads the file of what a shop says once for all its jobs.
 * @throws TemperbookError that lists all that is wrong with it at once.
 */
export function readDefaults(path: string): Defaults {
  const file = resolve(path);
  const data = readUserJson(file, "The file of the shop's defaults");
  refuseProblems("The file of the shop's defaults", check(data), { file });
  const { metal, measuring = {}, limits = {}, probes = [] } = data as ShopDefaults;
  const folder = dirname(file);
  return {
    metal: metal === undefined ? {} : jobMetal(metal, folder),
    measuring,
    limits,
    named: probes.map(({ metal: own, ...probe }) => ({
      ...probe,
      ...(own === undefined ? {} : { metal: metalOfProbe(own, folder) }),
    })),
  };
}
