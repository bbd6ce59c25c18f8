import type { PlateModel } from './plateModel';

/** Share of the neglected fill that is added back to the diagonal; 1 would keep row sums exactly. */
const RELAXATION = 0.97;
const MOST_ITERATIONS = 1000;

/** Conduction matrix of a grid, W/K: `own` on the diagonal, the conductances to the right and up off it. */
export interface GridMatrix {
  readonly own: Float64Array;
  readonly right: Float64Array;
  readonly up: Float64Array;
}

/**
 * Solves for the temperature changes x of a grid: own·x − Σ conductance · x of the four neighbours = r.
 * Conjugate gradients with a modified incomplete Cholesky preconditioner.
 * Source: I. Gustafsson, BIT 18 (1978) 142–156.
 */
export class ConjugateGradient {
  /** Since construction. */
  iterations = 0;
  private readonly pivot: Float64Array;
  private readonly half: Float64Array;
  private readonly z: Float64Array;
  private readonly direction: Float64Array;
  private readonly image: Float64Array;

  constructor(private readonly model: PlateModel) {
    const array = () => new Float64Array(model.length);
    this.pivot = array();
    this.half = array();
    this.z = array();
    this.direction = array();
    this.image = array();
  }

  /** Prepares the preconditioner. It may serve later matrices as long as they are similar. */
  factor({ own, right, up }: GridMatrix): void {
    const { first, end, grid } = this.model;
    const { columns } = grid;
    const { pivot } = this;
    const relaxation = RELAXATION;
    for (let cell = first; cell < end; cell++) {
      const left = right[cell - 1]!;
      const below = up[cell - columns]!;
      const fill =
        left * pivot[cell - 1]! * (left + relaxation * up[cell - 1]!) +
        below * pivot[cell - columns]! * (below + relaxation * right[cell - columns]!);
      pivot[cell] = 1 / (own[cell]! - fill);
    }
  }

  /** One pass of the preconditioner: z becomes an approximate solution for r. Returns r·z. */
  precondition({ right, up }: GridMatrix, r: Float64Array, z: Float64Array): number {
    const { first, end, grid } = this.model;
    const { columns } = grid;
    const { pivot, half } = this;
    let before = 0;
    for (let cell = first; cell < end; cell++) {
      const p = pivot[cell]!;
      before = (r[cell]! + up[cell - columns]! * half[cell - columns]!) * p + right[cell - 1]! * p * before;
      half[cell] = before;
    }
    let rz = 0;
    let after = 0;
    for (let cell = end - 1; cell >= first; cell--) {
      const p = pivot[cell]!;
      after = half[cell]! + up[cell]! * p * z[cell + columns]! + right[cell]! * p * after;
      z[cell] = after;
      rz += r[cell]! * after;
    }
    return rz;
  }

  /**
   * Improves x from 0 until no cell's residual exceeds its `allowed` one, W. On return r holds what is left.
   */
  solve(matrix: GridMatrix, allowed: Float64Array, r: Float64Array, x: Float64Array): void {
    const { first, end } = this.model;
    const { z, direction, image } = this;
    x.fill(0);
    if (!this.exceeds(allowed, r)) return;
    direction.fill(0);
    let rzBefore = Number.POSITIVE_INFINITY;
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      this.iterations++;
      const rz = this.precondition(matrix, r, z);
      const beta = rz / rzBefore;
      rzBefore = rz;
      for (let cell = first; cell < end; cell++) direction[cell] = z[cell]! + beta * direction[cell]!;
      const alpha = rz / this.multiply(matrix, direction, image);
      let settled = true;
      for (let cell = first; cell < end; cell++) {
        x[cell]! += alpha * direction[cell]!;
        const left = r[cell]! - alpha * image[cell]!;
        r[cell] = left;
        if (Math.abs(left) > allowed[cell]!) settled = false;
      }
      if (settled) return;
    }
  }

  private exceeds(allowed: Float64Array, r: Float64Array): boolean {
    for (let cell = this.model.first; cell < this.model.end; cell++)
      if (Math.abs(r[cell]!) > allowed[cell]!) return true;
    return false;
  }

  /** image = matrix × p. Returns p·image. */
  private multiply({ own, right, up }: GridMatrix, p: Float64Array, image: Float64Array): number {
    const { first, end, grid } = this.model;
    const { columns } = grid;
    let product = 0;
    let before = 0;
    let here = p[first]!;
    let toLeft = 0;
    for (let cell = first; cell < end; cell++) {
      const after = p[cell + 1]!;
      const toRight = right[cell]!;
      const value =
        own[cell]! * here -
        toLeft * before -
        toRight * after -
        up[cell - columns]! * p[cell - columns]! -
        up[cell]! * p[cell + columns]!;
      image[cell] = value;
      product += value * here;
      before = here;
      here = after;
      toLeft = toRight;
    }
    return product;
  }
}
