import type { ThermalHistory } from '../history';
import { historyAt, placeInRange } from './drawOf';
import type { Exposure } from './exposure';

/** Draws that a 5 and a 95 % line of a plain measure need. */
const DRAWS = 100;

/** A measure of the history (a peak, a time above a limit) in the first hundred draws of its record. */
export function acrossDraws(exposure: Exposure, measure: (history: ThermalHistory) => number): Float64Array {
  const tempC = new Float64Array(exposure.history.timeS.length);
  return Float64Array.from({ length: exposure.doubts.length > 0 ? DRAWS : 1 }, (_, i) =>
    measure(historyAt(exposure, (doubt) => placeInRange(doubt, i), tempC)),
  );
}
