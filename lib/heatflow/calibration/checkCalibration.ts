import { requireNumber, TemperbookError } from '../../quantity';
import type { CalibrationChannel, CalibrationUnknown } from './calibration';

/** Checks channels and unknowns before the first run of a model that may be slow. @throws TemperbookError */
export function checkCalibration(
  channels: readonly CalibrationChannel[],
  parameters: Readonly<Record<string, CalibrationUnknown>>,
): void {
  const unknowns = Object.entries(parameters);
  if (channels.length === 0) throw new TemperbookError('A calibration needs at least one logged channel');
  if (unknowns.length === 0) throw new TemperbookError('A calibration needs at least one parameter to find');
  for (const { name, standardErrorC = 2 } of channels)
    requireNumber(standardErrorC, `The standard error of ${name} in °C`, { low: 1e-3, high: 500 });
  for (const [name, { low, high }] of unknowns) {
    if (Number.isFinite(low) && Number.isFinite(high)) continue;
    throw new TemperbookError(`${name} has no bounds to search between`, {
      found: `low ${low}, high ${high}`,
      expected: 'two numbers',
      remedy: 'Give low and high: the least and the most that is physically possible',
    });
  }
}
