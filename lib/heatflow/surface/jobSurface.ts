import type { PlatePlan } from '../plate';
import { BentSurface, valuesAt } from './bentSurface';
import { type PhaseClock, phaseBounds, phaseLengths } from './phaseClock';
import type { SurfaceRun } from './solveForSurface';
import { bentPasses, strikeMargins } from './strikeMargins';
import type { SurfaceTerm } from './surfaceTerms';

/** A run and the point of what is not known it was made at. */
export interface RunAt {
  readonly x: Float64Array;
  readonly run: SurfaceRun;
}

/** One plausible job: its clock, what it was like, and the terms every surface takes at it. */
export interface JobAt {
  readonly terms: readonly number[];
  readonly clock: PhaseClock;
  readonly strikeC: readonly number[];
  readonly bodyC: number;
}

/** How a job goes as a function of what is not known of it. */
export interface JobSurface {
  /** Lays other surfaces through the same runs. */
  readonly surface: BentSurface;
  readonly longestS: readonly number[];
  /** How many bends there are before a phase. */
  bendsBefore(phase: number): number;
  at(x: Float64Array): JobAt;
}

/** A shorter arc or wait is none, s. */
export const TINY_S = 1e-3;
/** A wait is told by the logarithm of itself and so much, s: waits for a limit may be short or long. */
const WAIT_PLUS_S = 100;

const isArc = (phase: number): boolean => phase % 2 === 1;

/**
 * Lays surfaces through the lengths of a job's phases, the temperatures at which its passes are struck and the hottest the
 * part is. Where a limit holds a pass up in some runs only, everything after that is bent there (`strikeMargins`).
 */
export function jobSurface(
  plan: PlatePlan,
  runs: readonly RunAt[],
  meeting: readonly RunAt[],
  baseC: number,
  terms: readonly SurfaceTerm[],
): JobSurface {
  const { passes } = plan;
  const phases = 2 * passes.length + 1;
  const marginsOf = ({ run }: RunAt) => strikeMargins(plan, run, baseC);
  const bent = bentPasses(runs.map(marginsOf));
  const bentRun = (one: RunAt) => {
    const margins = marginsOf(one);
    return { x: one.x, bends: bent.map((k) => Math.max(0, margins[k]!)) };
  };
  const surface = new BentSurface(runs.map(bentRun), meeting, terms);
  const log = (tempC: number): number => Math.log(Math.max(tempC - baseC, 1));
  const seen = (one: RunAt): Float64Array => {
    const lengths = phaseLengths(phaseBounds(one.run)).map((s, phase) =>
      Math.log(isArc(phase) ? Math.max(s, TINY_S) : s + WAIT_PLUS_S),
    );
    const margins = marginsOf(one);
    const strikes = one.run.passes.map((pass, k) =>
      Number.isFinite(margins[k]!) ? margins[k]! : log(pass.interpassC ?? pass.bulkStartC),
    );
    return Float64Array.of(...lengths, ...strikes, log(Math.max(...one.run.passes.map((p) => p.bodyC))));
  };
  const bendsBefore = (phase: number): number => bent.filter((k) => 2 * k < phase).length;
  const bendsOf = (quantity: number): number => {
    if (quantity < phases) return bendsBefore(quantity + 1);
    return quantity < phases + passes.length ? bendsBefore(2 * (quantity - phases)) : bent.length;
  };
  const fit = surface.fit(runs.map(seen), meeting.map(seen), bendsOf);
  const lengthsOf = runs.map(({ run }) => phaseLengths(phaseBounds(run)));
  const longestS = Array.from({ length: phases }, (_, phase) =>
    Math.max(TINY_S, ...lengthsOf.map((lengths) => lengths[phase]!)),
  );

  const at = (x: Float64Array): JobAt => {
    const terms = surface.termsAt(
      x,
      bent.map(() => 0),
    );
    for (const [b, k] of bent.entries()) {
      const margin = terms.reduce((sum, term, t) => sum + term * fit[t]![phases + k]!, 0);
      terms[terms.length - bent.length + b] = Math.max(0, margin);
    }
    const values = valuesAt(fit, terms);
    const boundsS = [0];
    for (let phase = 0; phase < phases; phase++) {
      const told = Math.exp(values[phase]!) - (isArc(phase) ? 0 : WAIT_PLUS_S);
      const least = isArc(phase) ? 0 : (passes[phase / 2]?.startAfter?.waitS ?? 0);
      boundsS.push(boundsS[phase]! + (told <= 2 * TINY_S ? least : Math.max(least, told)));
    }
    return {
      terms,
      clock: { boundsS, longestS },
      strikeC: passes.map(({ startAfter }, k) => {
        const value = values[phases + k]!;
        const limitC = startAfter?.interpassC;
        return (
          baseC + (limitC === undefined ? Math.exp(value) : (limitC - baseC) * Math.exp(-Math.max(0, value)))
        );
      }),
      bodyC: baseC + Math.exp(values[phases + passes.length]!),
    };
  };
  return { surface, longestS, bendsBefore, at };
}
