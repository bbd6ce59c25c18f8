import type { Pass } from '../../exposure';
import { TemperbookError } from '../../quantity';
import type { LumpedJob } from '../lumped/lumpedJob';
import { lumpedNetwork } from '../lumped/lumpedNetwork';
import type { HeatModel } from './calibration';

/**
 * A lumped network as a model for `calibrateToLog`: the job for given values, and the part each channel sits on.
 * @throws TemperbookError when a channel's part is not in the job.
 */
export function lumpedHeatModel<Name extends string>(
  partOfChannel: readonly string[],
  jobFor: (values: Readonly<Record<Name, number>>, passes: readonly Pass[]) => LumpedJob,
): HeatModel<Name> {
  return (values, passes) => {
    const { histories } = lumpedNetwork(jobFor(values, passes));
    return partOfChannel.map((part) => {
      const history = histories[part];
      if (history) return history;
      throw new TemperbookError(`No part of the network is called "${part}"`, {
        expected: `one of ${Object.keys(histories).join(', ')}`,
      });
    });
  };
}
