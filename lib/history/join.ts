import { requireNumber, TemperbookError } from '../quantity';
import { checkHistory, type ThermalHistory, thermalHistory } from './thermalHistory';

/** A jump of temperature where two histories meet is drawn as a straight line over this long, s. */
export const STEP_S = 0.001;
/** Temperatures this close are one temperature: the rounding of an edit is no step, °C. */
const SAME_C = 1e-9;

/**
 * Joins histories end to end: weld, then wait, then re-age. Each one is moved along the time axis so that it
 * starts `pauseS` (s, default 0) after the one before it ends; the first keeps its times.
 *
 * Without a pause the end of one and the start of the next are the same instant: equal temperatures become
 * one sample, different ones a step over 0.001 s. With a pause the time between is marked as a gap, because
 * nobody recorded it; join `isothermal(20, waitS)` in between to say what happened, or use `bridgeGaps`.
 * @throws TemperbookError on no history, one that breaks its promises, or a negative pause.
 */
export function join(parts: readonly ThermalHistory[], pauseS = 0): ThermalHistory {
  if (parts.length === 0)
    throw new TemperbookError('There is nothing to join', { expected: 'at least one history' });
  requireNumber(pauseS, 'Pause between joined histories in s', { low: 0 });
  for (const part of parts) checkHistory(part);
  const timeS = new Float64Array(parts.reduce((sum, part) => sum + part.timeS.length, 0));
  const tempC = new Float64Array(timeS.length);
  const gapAfter: number[] = [];
  let count = 0;
  for (const part of parts) {
    const meets = count > 0 && pauseS === 0;
    const merges = meets && Math.abs(tempC[count - 1]! - part.tempC[0]!) < SAME_C;
    if (count > 0 && !meets) gapAfter.push(count - 1);
    const shiftS =
      count === 0 ? 0 : timeS[count - 1]! + (merges ? 0 : meets ? STEP_S : pauseS) - part.timeS[0]!;
    if (merges) count--;
    for (const i of part.gapAfter ?? []) gapAfter.push(count + i);
    tempC.set(merges ? part.tempC.subarray(1) : part.tempC, merges ? count + 1 : count);
    for (let i = 0; i < part.timeS.length; i++) timeS[count + i] = part.timeS[i]! + shiftS;
    count += part.timeS.length;
  }
  return thermalHistory(timeS.subarray(0, count), tempC.subarray(0, count), gapAfter);
}
