import { requireNumber, TemperbookError } from '../quantity';
import { checkHistory, lastAtOrBefore, type ThermalHistory, tempAt, thermalHistory } from './thermalHistory';

/**
 * The part of a history between two times (s, on its own axis, which is kept), both ends included. A cut
 * between two samples is placed on the straight line between them; a cut inside a gap falls back to the next
 * sample inside the slice, because nothing is known within a gap.
 * @throws TemperbookError when the times are not in order or nothing was recorded between them.
 */
export function slice(history: ThermalHistory, fromS: number, toS: number): ThermalHistory {
  checkHistory(history);
  requireNumber(fromS, 'Start of a slice in s');
  requireNumber(toS, 'End of a slice in s', { low: fromS });
  const { timeS, gapAfter } = history;
  const last = lastAtOrBefore(timeS, toS);
  const before = lastAtOrBefore(timeS, fromS);
  const first = before >= 0 && timeS[before] === fromS ? before : before + 1;
  const recorded = (i: number): boolean => i >= 0 && i < timeS.length - 1 && !gapAfter?.includes(i);
  const cutBefore = before < first && recorded(before);
  const cutAfter = toS > fromS && last >= 0 && timeS[last]! < toS && recorded(last);
  const inside = [...(gapAfter ?? [])].filter((i) => i >= first && i < last);
  const times = [
    ...(cutBefore ? [fromS] : []),
    ...timeS.subarray(first, last + 1),
    ...(cutAfter ? [toS] : []),
  ];
  if (times.length === 0)
    throw new TemperbookError('Nothing was recorded in this slice of the history', {
      found: `${fromS} to ${toS} s`,
      expected: `times within ${timeS[0]} to ${timeS[timeS.length - 1]} s and outside its gaps`,
    });
  return thermalHistory(
    times,
    times.map((atS) => tempAt(history, atS)),
    inside.map((i) => i - first + (cutBefore ? 1 : 0)),
  );
}
