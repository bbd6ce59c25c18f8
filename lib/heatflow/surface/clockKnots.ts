import { type ThermalHistory, tempAt } from '../../history';
import { type PhaseClock, timeAtPlace } from './phaseClock';

/** A straight line between two knots may miss a history by so much, K; below the second temperature by the third. */
const CLOSE_K = 0.3;
const COLD_C = 140;
const CLOSE_COLD_K = 3;
/** Places looked at in every phase. */
const LOOKS = 240;

/** The history of one place in one run, on that run's clock. */
export interface ClockedHistory {
  readonly clock: PhaseClock;
  readonly history: ThermalHistory;
}

/**
 * Places of the clock between which straight lines follow all the histories given: where one job is straight another has
 * its peak, and a peak cut off is heat that never was.
 */
export function clockKnots(histories: readonly ClockedHistory[]): number[] {
  const phases = histories[0]!.clock.boundsS.length - 1;
  const places = Array.from({ length: phases * LOOKS + 1 }, (_, i) => i / LOOKS);
  const looks = histories.map(({ clock, history }) => {
    const timeS = places.map((place) => timeAtPlace(clock, place));
    return { timeS, tempC: timeS.map((s) => tempAt(history, s)) };
  });
  const kept = new Set(Array.from({ length: phases + 1 }, (_, phase) => phase * LOOKS));
  const refine = (first: number, last: number): void => {
    let worst = first;
    let missed = 1;
    for (const { timeS, tempC } of looks) {
      const [from, to] = [timeS[first]!, timeS[last]!];
      const slope = to > from ? (tempC[last]! - tempC[first]!) / (to - from) : 0;
      for (let i = first + 1; i < last; i++) {
        const miss = Math.abs(tempC[i]! - tempC[first]! - slope * (timeS[i]! - from));
        const share = miss / (tempC[i]! < COLD_C ? CLOSE_COLD_K : CLOSE_K);
        if (share > missed) [worst, missed] = [i, share];
      }
    }
    if (worst === first) return;
    kept.add(worst);
    refine(first, worst);
    refine(worst, last);
  };
  for (let phase = 0; phase < phases; phase++) refine(phase * LOOKS, (phase + 1) * LOOKS);
  return [...kept].sort((a, b) => a - b).map((i) => places[i]!);
}
