import { requireNumber } from '../quantity';
import { stretches } from './stretches';
import { checkHistory, type ThermalHistory, tempOnLine, thermalHistory } from './thermalHistory';

/**
 * What a logger with this interval (s) would have written: readings of the history at its first time and
 * every `intervalS` after, and at its last time. A peak between two of these instants is lost, as a slow
 * logger loses it. No reading falls inside a gap, and gaps stay marked.
 * @throws TemperbookError on a history that breaks its promises or an interval that is not positive.
 */
export function resample(history: ThermalHistory, intervalS: number): ThermalHistory {
  checkHistory(history);
  requireNumber(intervalS, 'Interval in s', { low: Number.MIN_VALUE });
  const { timeS, tempC } = history;
  const startS = timeS[0]!;
  const times: number[] = [];
  const temps: number[] = [];
  const gapAfter: number[] = [];
  for (const { first, last } of stretches(history)) {
    const already = times.length;
    let i = first;
    const endTick = Math.floor((timeS[last]! - startS) / intervalS);
    for (let tick = Math.ceil((timeS[first]! - startS) / intervalS); tick <= endTick; tick++) {
      const atS = Math.min(startS + tick * intervalS, timeS[last]!);
      while (i < last - 1 && timeS[i + 1]! <= atS) i++;
      times.push(atS);
      temps.push(first === last ? tempC[i]! : tempOnLine(history, i, atS));
    }
    if (last === timeS.length - 1 && times[times.length - 1] !== timeS[last]) {
      times.push(timeS[last]!);
      temps.push(tempC[last]!);
    }
    if (already > 0 && times.length > already) gapAfter.push(already - 1);
  }
  return thermalHistory(times, temps, gapAfter);
}
