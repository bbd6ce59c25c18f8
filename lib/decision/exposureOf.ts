import type { Exposure } from '../exposure';
import type { ThermalLog } from '../log';
import { knownOptions, TemperbookError } from '../quantity';
import { allowanceOf } from '../strength';
import { JUDGE_OPTIONS, type JudgeOptions } from './judgeOptions';
import { metalsNamed } from './metalsNamed';
import { placesToJudge } from './placesToJudge';

/**
 * What the metal under one probe of a log saw, as `judge` takes it: ready to be edited (`editExposure`), compared
 * (`compareScenarios`) or taken further (`considerRecovery`) with everything its record leaves open.
 * @throws TemperbookError as `judge`, and for a channel that the log does not have or that cannot be judged.
 */
export function exposureOf(log: ThermalLog, channel: string, given: JudgeOptions): Exposure {
  const options = knownOptions(given, JUDGE_OPTIONS, 'exposureOf');
  const { places } = placesToJudge(log, metalsNamed(options), allowanceOf(options.allowanceFraction));
  const found = places.find(({ name }) => name === channel);
  if (found) return found.exposure;
  throw new TemperbookError('The log has no such channel to judge', {
    file: log.source.name,
    found: `"${channel}"`,
    expected: `one of ${places.map(({ name }) => `"${name}"`).join(', ')}`,
  });
}
