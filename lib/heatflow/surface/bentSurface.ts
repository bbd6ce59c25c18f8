import { Matrix, pseudoInverse } from 'ml-matrix';
import { type SurfaceTerm, termsAt } from './surfaceTerms';

/** Row t holds the coefficients of term t, one for each quantity. */
export type SurfaceFit = readonly Float64Array[];

/** A run at a point of what is not known, with its bends: one number for each pass that has one. */
export interface BentRun {
  readonly x: Float64Array;
  readonly bends: readonly number[];
}

/**
 * Surfaces through many quantities seen in the same runs, by least squares: the terms of x, plus a multiple of each of the
 * first bends. A quantity is bent only by what happened before it, so each says how many bends it has.
 */
export class BentSurface {
  private readonly solvers = new Map<number, Matrix>();
  /** The run at the same point as each of `meeting`. */
  private readonly twins: readonly number[];

  constructor(
    private readonly runs: readonly BentRun[],
    /** Points of runs that were made on finer cells too; where the runs are on these already, the middle alone. */
    private readonly meeting: readonly { readonly x: Float64Array }[],
    private readonly terms: readonly SurfaceTerm[],
  ) {
    this.twins = meeting.map(({ x }) => runs.findIndex((run) => run.x.every((value, a) => value === x[a])));
  }

  /** The terms of a point, then its bends. */
  termsAt(x: Float64Array, bends: readonly number[]): number[] {
    return [...termsAt(this.terms, x), ...bends];
  }

  /** A surface through every quantity: a row of `seen` for each run, one of `seenMeeting` for each point made on finer cells. */
  fit(
    seen: readonly Float64Array[],
    seenMeeting: readonly Float64Array[],
    bendsOf: (quantity: number) => number,
  ): SurfaceFit {
    const bends = Array.from(seen[0]!, (_, j) => bendsOf(j));
    const values = new Matrix(seen.map((row) => Array.from(row)));
    const fits = new Map([...new Set(bends)].map((count) => [count, this.solver(count).mmul(values)]));
    const terms = fits.get(bends[0]!)!.rows;
    const fit = Array.from({ length: terms }, (_, t) =>
      Float64Array.from(bends, (count, j) => fits.get(count)!.get(t, j)),
    );
    this.meet(fit, seen, seenMeeting);
    return fit;
  }

  private solver(bends: number): Matrix {
    const known = this.solvers.get(bends);
    if (known) return known;
    const made = pseudoInverse(
      new Matrix(
        this.runs.map((run) =>
          this.termsAt(
            run.x,
            run.bends.map((bend, k) => (k < bends ? bend : 0)),
          ),
        ),
      ),
    );
    this.solvers.set(bends, made);
    return made;
  }

  /**
   * Adds what finer cells change, run against run: a constant and a slope along the first direction, by least squares. What they
   * change scatters more from run to run than it goes with anything else.
   */
  private meet(fit: SurfaceFit, seen: readonly Float64Array[], truths: readonly Float64Array[]): void {
    const changes = truths.map((truth, k) => {
      const twin = seen[this.twins[k]!]!;
      return Array.from(truth, (value, j) => value - twin[j]!);
    });
    const ofPoints = pseudoInverse(new Matrix(this.meeting.map(({ x }) => [1, x[0]!])));
    const change = ofPoints.mmul(new Matrix(changes));
    // The constant comes first, then the directions.
    for (const t of [0, 1]) for (let j = 0; j < change.columns; j++) fit[t]![j]! += change.get(t, j);
  }
}

/** The quantities of a fit at the terms of a point. */
export function valuesAt(fit: SurfaceFit, terms: readonly number[]): Float64Array {
  const found = new Float64Array(fit[0]!.length);
  for (const [t, by] of terms.entries()) {
    if (by === 0) continue;
    const row = fit[t]!;
    for (let j = 0; j < found.length; j++) found[j]! += by * row[j]!;
  }
  return found;
}
