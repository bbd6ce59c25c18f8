import { Matrix, pseudoInverse } from 'ml-matrix';
import { surfaceTerms } from './surfaceTerms';

/** A run at a point of what is not known, with its bends: one number for each pass that has one. */
export interface BentRun {
  readonly x: Float64Array;
  readonly bends: readonly number[];
}

/**
 * Surfaces through many quantities seen in the same runs, by least squares: `surfaceTerms` of x, plus a multiple of each of the
 * first bends. A quantity is bent only by what happened before it, so each says how many bends it has.
 */
export class BentSurface {
  private readonly solvers = new Map<number, Matrix>();

  constructor(
    private readonly runs: readonly BentRun[],
    /** Runs the surface is then moved to meet: in the middle, and at both ends of the first direction where those were made. */
    private readonly meeting: readonly BentRun[],
  ) {}

  /** Row t of the answer is the coefficient of term t for every quantity. */
  fit(
    seen: readonly Float64Array[],
    seenMeeting: readonly Float64Array[],
    bendsOf: (quantity: number) => number,
  ): Matrix {
    const quantities = seen[0]!.length;
    const columns = Array.from({ length: quantities }, (_, j) => {
      const values = new Matrix(seen.map((row) => [row[j]!]));
      return this.solver(bendsOf(j)).mmul(values).to1DArray();
    });
    return this.meet(new Matrix(columns).transpose(), seenMeeting);
  }

  private solver(bends: number): Matrix {
    const known = this.solvers.get(bends);
    if (known) return known;
    const made = pseudoInverse(
      new Matrix(
        this.runs.map((run) =>
          termsOf(
            run.x,
            run.bends.map((bend, k) => (k < bends ? bend : 0)),
          ),
        ),
      ),
    );
    this.solvers.set(bends, made);
    return made;
  }

  /** Between the three runs to meet a parabola along the first direction. */
  private meet(fit: Matrix, truths: readonly Float64Array[]): Matrix {
    const [middle, low, high] = this.meeting.map(({ x, bends }, k) => {
      const told = valuesAt(fit, termsOf(x, bends));
      return { x: x[0]!, miss: truths[k]!.map((truth, j) => truth - told[j]!) };
    });
    const squareRow = 1 + this.meeting[0]!.x.length;
    for (let j = 0; j < fit.columns; j++) {
      const add = (row: number, by: number) => fit.set(row, j, fit.get(row, j) + by);
      const atMiddle = middle!.miss[j]!;
      add(0, atMiddle);
      if (!low || !high) continue;
      const [below, above] = [(low.miss[j]! - atMiddle) / low.x, (high.miss[j]! - atMiddle) / high.x];
      const bend = (above - below) / (high.x - low.x);
      add(1, below - bend * low.x);
      add(squareRow, bend);
    }
    return fit;
  }
}

/** The terms of a point: `surfaceTerms`, then its bends. */
export const termsOf = (x: Float64Array, bends: readonly number[]): number[] => [
  ...surfaceTerms(x),
  ...bends,
];

/** The quantities of a fit at the terms of a point. */
export function valuesAt(fit: Matrix, terms: readonly number[]): Float64Array {
  const found = new Float64Array(fit.columns);
  for (const [t, by] of terms.entries())
    if (by !== 0) for (let j = 0; j < found.length; j++) found[j]! += by * fit.get(t, j);
  return found;
}
