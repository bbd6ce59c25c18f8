import { checkHistory, type ThermalHistory } from '../history';
import { requireNumber } from '../quantity';

/**
 * Time in s during which the history is above `limitC` (°C), the crossings taken on the straight lines
 * between samples. Gaps count neither as above nor as below: see `coverage`. A hold exactly at the limit is
 * not above it.
 * @throws TemperbookError on a history that breaks its promises or a limit that is not a number.
 */
export function timeAbove(history: ThermalHistory, limitC: number): number {
  checkHistory(history);
  requireNumber(limitC, 'Temperature limit in °C');
  const { timeS, tempC, gapAfter } = history;
  let nextGap = 0;
  let aboveS = 0;
  for (let i = 1; i < timeS.length; i++) {
    if (gapAfter !== undefined && gapAfter[nextGap] === i - 1) {
      nextGap++;
      continue;
    }
    const before = tempC[i - 1]! - limitC;
    const after = tempC[i]! - limitC;
    const stepS = timeS[i]! - timeS[i - 1]!;
    if (before > 0 && after > 0) aboveS += stepS;
    else if (before > 0) aboveS += stepS * (before / (before - after));
    else if (after > 0) aboveS += stepS * (after / (after - before));
  }
  return aboveS;
}
