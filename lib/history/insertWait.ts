import { requireNumber, TemperbookError } from '../quantity';
import { type PartCooling, timeConstantOf } from './cooling';
import { join } from './join';
import { shiftTemperature } from './shiftTemperature';
import { slice } from './slice';
import { checkHistory, type ThermalHistory, thermalHistory } from './thermalHistory';

/** Straight lines of τ/30 follow an exponential from 500 K above ambient within 0.07 K. */
const STEPS_PER_TIME_CONSTANT = 30;
/** After this many time constants less than a thousandth of the difference is left. */
const TIME_CONSTANTS_DRAWN = 7;

/** Where a wait goes and how long it is. */
export interface Wait {
  /** When the part is put down, s on the history's axis: usually the start of a pass. */
  readonly atS: number;
  readonly waitS: number;
}

/**
 * A longer wait between passes. The rule: at `atS` the part is left alone for `waitS` and cools on towards
 * ambient, T = T_a + (T₀ − T_a) exp(−t/τ). All that follows comes `waitS` later and starts D cooler, D being
 * what the part lost during the wait; the same arc on a cooler part leaves it cooler by D exp(−t/τ), so
 * that difference is subtracted from the later readings. Exact for a part of one temperature with constant
 * losses; near the weld it is the bulk's share of the reading that is shifted, the arc's own share stays.
 * A wait at the end of the history simply lets the part cool on.
 * @throws TemperbookError when `atS` lies outside the history or in a gap, or τ is neither given nor visible
 * in the trace (`coolingTimeConstant`).
 */
export function insertWait(
  history: ThermalHistory,
  { atS, waitS }: Wait,
  cooling: PartCooling,
): ThermalHistory {
  checkHistory(history);
  const { timeS } = history;
  const startS = timeS[0]!;
  const endS = timeS[timeS.length - 1]!;
  requireNumber(atS, 'Time at which to wait in s', { low: startS, high: endS });
  requireNumber(waitS, 'Length of the wait in s', { low: Number.MIN_VALUE });
  const before = slice(history, startS, atS);
  const after = slice(history, atS, endS);
  if (before.timeS[before.timeS.length - 1] !== atS || after.timeS[0] !== atS)
    throw new TemperbookError('A wait cannot start in a gap of the trace', {
      found: `${atS} s`,
      remedy: 'Bridge the gap first, or choose a recorded time',
    });
  const tauS = timeConstantOf(history, atS, cooling);
  const { ambientC } = cooling;
  const aboveK = after.tempC[0]! - ambientC;
  const drawnS = Math.min(waitS, TIME_CONSTANTS_DRAWN * tauS);
  const steps = Math.max(1, Math.ceil((drawnS / tauS) * STEPS_PER_TIME_CONSTANT));
  const waitedS = Float64Array.from({ length: steps + 1 }, (_, k) => (drawnS * k) / steps);
  const waited = thermalHistory(
    drawnS < waitS ? [...waitedS, waitS] : waitedS,
    [...waitedS, ...(drawnS < waitS ? [waitS] : [])].map((t) => ambientC + aboveK * Math.exp(-t / tauS)),
  );
  const lostK = after.tempC[0]! - waited.tempC[waited.tempC.length - 1]!;
  const cooler = shiftTemperature(after, (_, t) => -lostK * Math.exp(-(t - atS) / tauS));
  return join([before, waited, cooler]);
}
