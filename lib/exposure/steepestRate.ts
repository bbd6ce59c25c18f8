import { checkHistory, type ThermalHistory } from '../history';
import { requireNumber } from '../quantity';

/**
 * Steepest heating in K/s: the greatest rise between two instants `windowS` (s) apart, on the straight lines
 * between samples, never across a gap; 0 where the history only cools. The window is there so that one noisy
 * sample makes no rate: noise of standard deviation σ adds about 4 √2 σ/windowS over some thousand readings. Where it is shorter
 * than the logger's interval the interval takes its place; a recorded stretch shorter than it is taken whole.
 * Part of a history: `heatingRate(slice(history, fromS, toS))`.
 * @throws TemperbookError on a history that breaks its promises or a window that is not positive.
 */
export function heatingRate(history: ThermalHistory, windowS = 1): number {
  return steepestRise(history, windowS, 1);
}

/** Steepest cooling in K/s, positive; otherwise as `heatingRate`. */
export function coolingRate(history: ThermalHistory, windowS = 1): number {
  return steepestRise(history, windowS, -1);
}

function steepestRise(history: ThermalHistory, windowS: number, sign: 1 | -1): number {
  checkHistory(history);
  requireNumber(windowS, 'Window of a rate in s', { low: Number.MIN_VALUE });
  const { timeS, gapAfter } = history;
  let steepest = 0;
  let first = 0;
  for (const last of [...(gapAfter ?? []), timeS.length - 1]) {
    if (last > first) steepest = Math.max(steepest, steepestWithin(history, first, last, windowS, sign));
    first = last + 1;
  }
  return steepest;
}

/** One recorded stretch. On straight lines the greatest rise over a window has a sample at one of its ends. */
function steepestWithin(
  { timeS, tempC }: ThermalHistory,
  first: number,
  last: number,
  windowS: number,
  sign: 1 | -1,
): number {
  const spanS = Math.min(windowS, timeS[last]! - timeS[first]!);
  const lineAt = (k: number, atS: number): number =>
    tempC[k]! + ((tempC[k + 1]! - tempC[k]!) * (atS - timeS[k]!)) / (timeS[k + 1]! - timeS[k]!);
  let steepest = 0;
  let ahead = first;
  let behind = first;
  for (let i = first; i <= last; i++) {
    const endS = timeS[i]! + spanS;
    if (i === first || endS <= timeS[last]!) {
      while (ahead < last - 1 && timeS[ahead + 1]! < endS) ahead++;
      steepest = Math.max(steepest, (sign * (lineAt(ahead, endS) - tempC[i]!)) / spanS);
    }
    const startS = timeS[i]! - spanS;
    if (startS >= timeS[first]!) {
      while (behind < last - 1 && timeS[behind + 1]! < startS) behind++;
      steepest = Math.max(steepest, (sign * (tempC[i]! - lineAt(behind, startS))) / spanS);
    }
  }
  return steepest;
}
