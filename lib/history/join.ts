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
  const timeS: number[] = [];
  const tempC: number[] = [];
  const gapAfter: number[] = [];
  for (const part of parts) {
    checkHistory(part);
    const last = timeS.length - 1;
    const meets = last >= 0 && pauseS === 0;
    const merges = meets && Math.abs(tempC[last]! - part.tempC[0]!) < SAME_C;
    if (last >= 0 && pauseS > 0) gapAfter.push(last);
    const between = meets && !merges ? STEP_S : pauseS;
    const shiftS = last < 0 ? 0 : timeS[last]! + between - part.timeS[0]!;
    const offset = merges ? last : last + 1;
    for (const i of part.gapAfter ?? []) gapAfter.push(offset + i);
    for (let i = merges ? 1 : 0; i < part.timeS.length; i++) {
      timeS.push(part.timeS[i]! + shiftS);
      tempC.push(part.tempC[i]!);
    }
  }
  return thermalHistory(timeS, tempC, gapAfter);
}
