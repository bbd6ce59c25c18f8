import { requireNumber } from '../quantity';
import { stretches } from './stretches';
import { checkHistory, type ThermalHistory } from './thermalHistory';

/**
 * Thins a history to about `maxPoints` of its own samples for drawing. The time axis is cut into equal
 * buckets; of each bucket the coldest and the hottest sample stay, in their order, so no peak or dip is
 * lost. The first and last sample of every recorded stretch stay too, so gaps keep their place; only their
 * number can push the result above `maxPoints`. A history that is short enough comes back as it is.
 * One pass over the samples. Not for calculating: the integral of what is left is not the integral.
 * @throws TemperbookError on a history that breaks its promises or fewer than 4 points.
 */
export function thinForPlot(history: ThermalHistory, maxPoints: number): ThermalHistory {
  checkHistory(history);
  requireNumber(maxPoints, 'Number of points to draw', { low: 4 });
  const { timeS, tempC } = history;
  const count = timeS.length;
  if (count <= maxPoints) return history;
  const parts = stretches(history);
  const startS = timeS[0]!;
  const buckets = Math.max(1, Math.floor((maxPoints - 4 * parts.length) / 2));
  const perSecond = buckets / (timeS[count - 1]! - startS);
  const bucketOf = (i: number): number => Math.floor((timeS[i]! - startS) * perSecond);
  const keep = new Uint32Array(Math.min(count, 2 * (buckets + 2 * parts.length)));
  const gapAfter = new Uint32Array(parts.length - 1);
  let kept = 0;
  parts.forEach(({ first, last }, part) => {
    if (part > 0) gapAfter[part - 1] = kept - 1;
    keep[kept++] = first;
    let i = first + 1;
    while (i < last) {
      const bucket = bucketOf(i);
      let coldest = i;
      let hottest = i;
      for (i++; i < last && bucketOf(i) === bucket; i++) {
        if (tempC[i]! < tempC[coldest]!) coldest = i;
        else if (tempC[i]! > tempC[hottest]!) hottest = i;
      }
      keep[kept++] = Math.min(coldest, hottest);
      if (coldest !== hottest) keep[kept++] = Math.max(coldest, hottest);
    }
    if (last > first) keep[kept++] = last;
  });
  const chosen = keep.subarray(0, kept);
  return {
    timeS: Float64Array.from(chosen, (i) => timeS[i]!),
    tempC: Float64Array.from(chosen, (i) => tempC[i]!),
    ...(gapAfter.length > 0 ? { gapAfter } : {}),
  };
}
