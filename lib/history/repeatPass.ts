import { requireNumber } from '../quantity';
import { type PartCooling, timeConstantOf } from './cooling';
import { join } from './join';
import { shiftTemperature } from './shiftTemperature';
import { slice } from './slice';
import { checkHistory, type ThermalHistory } from './thermalHistory';

/**
 * One more pass like one that was logged: a repair. `pass` is the stretch to repeat, start to end (`findPasses`
 * gives them). The copy is put at the end of the history and starts from the temperature the part has there:
 * D warmer or cooler than the pass it copies, a difference that dies away as D exp(−t/τ) by the rule of
 * `insertWait`. Let the part cool first with `insertWait` at the end.
 * @throws TemperbookError when the pass lies outside the history, or τ is neither given nor visible in the
 * cooling before the end of the pass.
 */
export function repeatPass(
  history: ThermalHistory,
  pass: { readonly startS: number; readonly endS: number },
  cooling: PartCooling,
): ThermalHistory {
  checkHistory(history);
  const { timeS, tempC } = history;
  const last = timeS.length - 1;
  requireNumber(pass.startS, 'Start of the pass in s', { low: timeS[0]!, high: timeS[last]! });
  requireNumber(pass.endS, 'End of the pass in s', { low: pass.startS, high: timeS[last]! });
  const copied = slice(history, pass.startS, pass.endS);
  const tauS = timeConstantOf(history, pass.endS, cooling);
  const warmerK = tempC[last]! - copied.tempC[0]!;
  const startS = copied.timeS[0]!;
  return join([history, shiftTemperature(copied, (_, t) => warmerK * Math.exp(-(t - startS) / tauS))]);
}
