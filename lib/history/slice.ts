import { requireNumber, TemperbookError } from '../quantity';
import { checkHistory, lastAtOrBefore, type ThermalHistory, tempOnLine } from './thermalHistory';

/**
 * The part of a history between two times (s, on its own axis, which is kept), both ends included. A cut
 * between two samples is placed on the straight line between them; a cut inside a gap falls back to the next
 * sample inside the slice, because nothing is known within a gap.
 * @throws TemperbookError when the times are not in order or nothing was recorded between them.
 */
export function slice(history: ThermalHistory, fromS: number, toS: number): ThermalHistory {
  checkHistory(history);
  return cut(history, fromS, toS);
}

/** `slice` of a history that was checked already: many parts of a long one cost no more than their own length. */
export function cut(history: ThermalHistory, fromS: number, toS: number): ThermalHistory {
  requireNumber(fromS, 'Start of a slice in s');
  requireNumber(toS, 'End of a slice in s', { low: fromS });
  const { timeS, tempC, gapAfter } = history;
  const last = lastAtOrBefore(timeS, toS);
  const before = lastAtOrBefore(timeS, fromS);
  const first = before >= 0 && timeS[before] === fromS ? before : before + 1;
  const recorded = (i: number): boolean => i >= 0 && i < timeS.length - 1 && !gapAfter?.includes(i);
  const cutBefore = before < first && recorded(before) ? 1 : 0;
  const cutAfter = toS > fromS && last >= 0 && timeS[last]! < toS && recorded(last) ? 1 : 0;
  const kept = last + 1 - first;
  const count = cutBefore + kept + cutAfter;
  if (count === 0)
    throw new TemperbookError('Nothing was recorded in this slice of the history', {
      found: `${fromS} to ${toS} s`,
      expected: `times within ${timeS[0]} to ${timeS[timeS.length - 1]} s and outside its gaps`,
    });
  const times = new Float64Array(count);
  const temps = new Float64Array(count);
  times.set(timeS.subarray(first, last + 1), cutBefore);
  temps.set(tempC.subarray(first, last + 1), cutBefore);
  if (cutBefore) {
    times[0] = fromS;
    temps[0] = tempOnLine(history, before, fromS);
  }
  if (cutAfter) {
    times[count - 1] = toS;
    temps[count - 1] = tempOnLine(history, last, toS);
  }
  const gaps = gapAfter?.filter((i) => i >= first && i < last).map((i) => i - first + cutBefore);
  return { timeS: times, tempC: temps, ...(gaps?.length ? { gapAfter: gaps } : {}) };
}
