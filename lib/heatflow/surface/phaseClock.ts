import type { PlatePassResult } from '../plate';

/**
 * The job's own clock: waits and arcs one after the other, so that the same moment of two runs has the same place however
 * long each took: the arc half way along, or 20 s after it went out. A place is the number of the phase and the share of it.
 * An arc runs evenly. A wait runs in the logarithm of its time up to the longest there is, s = ln(1 + t/τ) / ln(1 + L/τ)
 * with τ = 10 s, as what cools does most at once; a shorter one is over before its last places.
 */
export interface PhaseClock {
  /** Ends of the phases, s: start, first arc on, first arc out, second on …, end. */
  readonly boundsS: readonly number[];
  /** The longest each phase may be, s. */
  readonly longestS: readonly number[];
}

const TAU_S = 10;

/** Ends of the phases of a run, s. */
export const phaseBounds = ({
  passes,
  endS,
}: {
  readonly passes: readonly PlatePassResult[];
  readonly endS: number;
}): number[] => [0, ...passes.flatMap((pass) => [pass.startS, pass.endS]), endS];

/** Lengths between bounds, s. */
export const phaseLengths = (boundsS: readonly number[]): number[] =>
  boundsS.slice(1).map((to, k) => to - boundsS[k]!);

const isArc = (phase: number): boolean => phase % 2 === 1;

/** Time at a place of the clock, s. */
export function timeAtPlace({ boundsS, longestS }: PhaseClock, place: number): number {
  const phase = Math.min(boundsS.length - 2, Math.floor(place));
  const share = place - phase;
  const [from, to] = [boundsS[phase]!, boundsS[phase + 1]!];
  if (isArc(phase)) return from + share * (to - from);
  return Math.min(to, from + TAU_S * ((1 + longestS[phase]! / TAU_S) ** share - 1));
}

/** Place of a time on the clock. */
export function placeOfTime({ boundsS, longestS }: PhaseClock, timeS: number): number {
  let phase = 0;
  while (phase < boundsS.length - 2 && timeS > boundsS[phase + 1]!) phase++;
  const [from, to] = [boundsS[phase]!, boundsS[phase + 1]!];
  if (to <= from) return phase;
  const share = isArc(phase)
    ? (timeS - from) / (to - from)
    : Math.log(1 + (timeS - from) / TAU_S) / Math.log(1 + longestS[phase]! / TAU_S);
  return phase + Math.min(1, Math.max(0, share));
}
