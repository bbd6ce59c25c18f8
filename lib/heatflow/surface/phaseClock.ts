import type { ThermalHistory } from '../../history';
import type { PlatePassResult } from '../plate';

/**
 * The job's own clock: waits and arcs one after the other, so that the same moment of two runs (the arc half way along,
 * the part shortly after it went out) has the same place however long each took. A place is the number of the phase and the
 * share of it; a wait runs in the logarithm, s = ln(1 + t/τ) / ln(1 + D/τ) with τ = 10 s, as what cools does most at once.
 */
export interface PhaseClock {
  /** Ends of the phases, s: start, first arc on, first arc out, second on …, end. */
  readonly boundsS: readonly number[];
}

const TAU_S = 10;

/** The clock of a run. */
export function phaseClock({
  passes,
  endS,
}: {
  readonly passes: readonly PlatePassResult[];
  readonly endS: number;
}): PhaseClock {
  return { boundsS: [0, ...passes.flatMap((pass) => [pass.startS, pass.endS]), endS] };
}

const isArc = (phase: number): boolean => phase % 2 === 1;

/** Time at a place of the clock, s. */
export function timeAtPlace({ boundsS }: PhaseClock, place: number): number {
  const phase = Math.min(boundsS.length - 2, Math.floor(place));
  const share = place - phase;
  const [from, to] = [boundsS[phase]!, boundsS[phase + 1]!];
  if (isArc(phase)) return from + share * (to - from);
  return from + TAU_S * ((1 + (to - from) / TAU_S) ** share - 1);
}

/** Place of a time on the clock. */
export function placeOfTime({ boundsS }: PhaseClock, timeS: number): number {
  let phase = 0;
  while (phase < boundsS.length - 2 && timeS > boundsS[phase + 1]!) phase++;
  const [from, to] = [boundsS[phase]!, boundsS[phase + 1]!];
  if (to <= from) return phase;
  const share = isArc(phase)
    ? (timeS - from) / (to - from)
    : Math.log(1 + (timeS - from) / TAU_S) / Math.log(1 + (to - from) / TAU_S);
  return phase + Math.min(1, Math.max(0, share));
}

/** A straight line between two knots may miss the history by so much, K; below the second temperature by the third. */
const CLOSE_K = 0.3;
const COLD_C = 140;
const CLOSE_COLD_K = 3;
/** Knots at these shares of every phase besides: runs differ where one history is straight. */
const ALWAYS = [0, 0.15, 0.3, 0.5, 0.7, 0.85];

/** Places of the clock at which straight lines follow a history. */
export function knotsOf(clock: PhaseClock, { timeS, tempC }: ThermalHistory): number[] {
  const kept = new Set<number>();
  const refine = (first: number, last: number): void => {
    let worst = first;
    let missed = 0;
    const slope = (tempC[last]! - tempC[first]!) / (timeS[last]! - timeS[first]!);
    for (let i = first + 1; i < last; i++) {
      const miss = Math.abs(tempC[i]! - tempC[first]! - slope * (timeS[i]! - timeS[first]!));
      const share = miss / (tempC[i]! < COLD_C ? CLOSE_COLD_K : CLOSE_K);
      if (share > missed) [worst, missed] = [i, share];
    }
    if (missed <= 1) return;
    kept.add(worst);
    refine(first, worst);
    refine(worst, last);
  };
  refine(0, timeS.length - 1);
  const phases = clock.boundsS.length - 1;
  const always = Array.from({ length: phases }, (_, phase) => ALWAYS.map((share) => phase + share)).flat();
  const places = [...always, phases, ...[...kept].map((i) => placeOfTime(clock, timeS[i]!))];
  const sorted = places.sort((a, b) => a - b);
  return sorted.filter((place, i) => i === 0 || place - sorted[i - 1]! > 1e-3);
}
