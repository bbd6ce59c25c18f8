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
  /** The run at the same point as each of `meeting`. */
  private readonly twins: readonly number[];

  constructor(
    private readonly runs: readonly BentRun[],
    /** On finer cells, each at the point of a run: in the middle, and where the runs are coarser at ends of the directions. */
    private readonly meeting: readonly BentRun[],
    /** Directions that have a cube. */
    private readonly cubed: readonly number[],
  ) {
    this.twins = meeting.map(({ x }) => runs.findIndex((run) => run.x.every((value, a) => value === x[a])));
  }

  /** The terms of a point: `surfaceTerms`, then its bends. */
  termsAt(x: Float64Array, bends: readonly number[]): number[] {
    return [...surfaceTerms(x, this.cubed), ...bends];
  }

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
    return this.meet(new Matrix(columns).transpose(), seen, seenMeeting);
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
   * Moves the surface onto the run in the middle. What finer cells change elsewhere goes by what they change at the ends of the
   * directions, run against run on both: a parabola along the first, straight along the others.
   */
  private meet(fit: Matrix, seen: readonly Float64Array[], truths: readonly Float64Array[]): Matrix {
    const [middle, ...ends] = this.meeting.map(({ x, bends }, k) => {
      const told = k === 0 ? valuesAt(fit, this.termsAt(x, bends)) : seen[this.twins[k]!]!;
      return { x, miss: truths[k]!.map((truth, j) => truth - told[j]!) };
    });
    const onBoth = truths[0]!.map((truth, j) => truth - seen[this.twins[0]!]![j]!);
    const dimensions = middle!.x.length;
    for (let j = 0; j < fit.columns; j++) {
      const add = (row: number, by: number) => fit.set(row, j, fit.get(row, j) + by);
      add(0, middle!.miss[j]!);
      for (let a = 0; a < dimensions; a++) {
        const own = ends.filter(({ x }) => x[a] !== 0);
        const slopes = own.map(({ x, miss }) => ({ at: x[a]!, slope: (miss[j]! - onBoth[j]!) / x[a]! }));
        const [first, second] = slopes;
        if (!first) continue;
        const bend = second ? (second.slope - first.slope) / (second.at - first.at) : 0;
        add(1 + a, first.slope - bend * first.at);
        if (bend !== 0) add(squareRow(dimensions, a), bend);
      }
    }
    return fit;
  }
}

/** The row of the square of direction a (`surfaceTerms`). */
const squareRow = (dimensions: number, a: number): number =>
  1 + dimensions + a * dimensions - (a * (a - 1)) / 2;

/** The quantities of a fit at the terms of a point. */
export function valuesAt(fit: Matrix, terms: readonly number[]): Float64Array {
  const found = new Float64Array(fit.columns);
  for (const [t, by] of terms.entries())
    if (by !== 0) for (let j = 0; j < found.length; j++) found[j]! += by * fit.get(t, j);
  return found;
}
