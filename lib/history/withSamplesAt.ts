import { checkHistory, type ThermalHistory, tempOnLine, thermalHistory } from './thermalHistory';

/**
 * The history with samples at these times as well (ascending, s), on the straight lines where they fall: it says the same. None
 * is put where the history has one already, outside it or into a gap.
 * @throws TemperbookError on a history that breaks its promises.
 */
export function withSamplesAt(history: ThermalHistory, atS: readonly number[]): ThermalHistory {
  checkHistory(history);
  const { timeS, tempC, gapAfter } = history;
  const gaps = new Set(gapAfter);
  const times: number[] = [];
  const temps: number[] = [];
  const marks: number[] = [];
  let next = 0;
  for (let i = 0; i < timeS.length; i++) {
    times.push(timeS[i]!);
    temps.push(tempC[i]!);
    if (gaps.has(i)) marks.push(times.length - 1);
    for (; next < atS.length && !(atS[next]! >= timeS[i + 1]!); next++)
      if (atS[next]! > times[times.length - 1]! && i + 1 < timeS.length && !gaps.has(i)) {
        times.push(atS[next]!);
        temps.push(tempOnLine(history, i, atS[next]!));
      }
  }
  return thermalHistory(times, temps, marks);
}
