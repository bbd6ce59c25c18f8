import { requireNumber, TemperbookError } from '../quantity';
import { STEP_S } from './join';
import { type ThermalHistory, thermalHistory } from './thermalHistory';

/** One step of a planned cycle: go to a temperature, then hold it. */
export interface ScheduleStep {
  readonly tempC: number;
  /** Hold, s; 0 to go straight on. */
  readonly holdS: number;
  /** Rate of heating or cooling on the way there, K/s, positive; without it the change takes 0.001 s. */
  readonly rateKPerS?: number;
}

/**
 * A planned heat-treat cycle as a history that starts at time 0 and `startC` (°C).
 * @throws TemperbookError on no step, a negative hold or a rate that is not positive.
 * @example scheduleHistory([{ tempC: 538, holdS: 36_000, rateKPerS: 0.1 }, { tempC: 25, holdS: 60, rateKPerS: 100
 *   }]).timeS.at(-1) // 41245
 */
export function scheduleHistory(steps: readonly ScheduleStep[], startC = 20): ThermalHistory {
  if (steps.length === 0)
    throw new TemperbookError('A schedule without steps has no history', { expected: 'at least one step' });
  const timeS = [0];
  const tempC = [requireNumber(startC, 'Start temperature of the schedule in °C')];
  const add = (lastingS: number, toC: number): void => {
    timeS.push(timeS[timeS.length - 1]! + lastingS);
    tempC.push(toC);
  };
  steps.forEach((step, i) => {
    requireNumber(step.tempC, `Temperature of step ${i + 1} in °C`);
    requireNumber(step.holdS, `Hold of step ${i + 1} in s`, { low: 0 });
    const changeK = Math.abs(step.tempC - tempC[tempC.length - 1]!);
    if (changeK > 0)
      add(
        step.rateKPerS === undefined
          ? STEP_S
          : changeK /
              requireNumber(step.rateKPerS, `Rate of step ${i + 1} in K/s`, { low: Number.MIN_VALUE }),
        step.tempC,
      );
    if (step.holdS > 0) add(step.holdS, step.tempC);
  });
  return thermalHistory(timeS, tempC);
}
