import { requireNumber } from '../quantity';
import { checkHistory, type ThermalHistory, thermalHistory } from './thermalHistory';

/**
 * The history as it would have run had the temperature been held at a limit (°C) wherever it went above.
 * The instants of crossing become samples, so the cut is exact on the straight lines between samples; gaps
 * stay where they are.
 * @throws TemperbookError on a history that breaks its promises or a limit that is not a number.
 */
export function capAt(history: ThermalHistory, limitC: number): ThermalHistory {
  checkHistory(history);
  requireNumber(limitC, 'Temperature limit in °C');
  const { timeS, tempC, gapAfter } = history;
  const gaps = new Set(gapAfter);
  const times: number[] = [];
  const temps: number[] = [];
  const marks: number[] = [];
  for (let i = 0; i < timeS.length; i++) {
    const before = i > 0 ? tempC[i - 1]! - limitC : 0;
    const here = tempC[i]! - limitC;
    if (gaps.has(i - 1)) marks.push(times.length - 1);
    else if (before * here < 0) {
      const crossS = timeS[i - 1]! + (timeS[i]! - timeS[i - 1]!) * (before / (before - here));
      if (crossS > timeS[i - 1]! && crossS < timeS[i]!) {
        times.push(crossS);
        temps.push(limitC);
      }
    }
    times.push(timeS[i]!);
    temps.push(Math.min(tempC[i]!, limitC));
  }
  return thermalHistory(times, temps, marks);
}
