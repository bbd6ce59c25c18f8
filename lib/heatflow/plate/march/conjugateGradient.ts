import type { CellField, CellMemory, JoinTable } from './cellMemory';

/** Share of the neglected fill that is added back to the diagonal; 1 would keep row sums exactly. */
const RELAXATION = 0.97;
const MOST_ITERATIONS = 1000;

/** Conduction matrix of a grid, W/K: `own` on the diagonal, the conductances to the right and up off it. */
export interface GridMatrix {
  readonly own: CellField;
  readonly right: CellField;
  readonly up: CellField;
  /** To the next layer down, where there is more than one. */
  readonly deep?: CellField | undefined;
  /** Conductances between cells that are no neighbours. */
  readonly joins?: JoinTable | undefined;
}

/**
 * Solves for the temperature changes x of a grid: own·x − Σ conductance · x of the neighbours = r.
 * Conjugate gradients with a modified incomplete Cholesky preconditioner, which leaves joins out.
 * Source: I. Gustafsson, BIT 18 (1978) 142–156.
 */
export class ConjugateGradient {
  /** Since construction. */
  iterations = 0;
  private readonly pivot: CellField;
  private readonly half: CellField;
  private readonly z: CellField;
  private readonly direction: CellField;
  private readonly image: CellField;

  constructor(private readonly memory: CellMemory) {
    this.pivot = memory.field();
    this.half = memory.field();
    this.z = memory.field();
    this.direction = memory.field();
    this.image = memory.field();
  }

  /** Prepares the preconditioner. It may serve later matrices as long as they are similar. */
  factor({ own, right, up, deep }: GridMatrix): void {
    const { kernels } = this.memory;
    if (deep) kernels.factorDeep(own.at, right.at, up.at, deep.at, RELAXATION, this.pivot.at);
    else kernels.factor(own.at, right.at, up.at, RELAXATION, this.pivot.at);
  }

  /** One pass of the preconditioner: z, which may be r itself, becomes an approximate solution for r. Returns r·z. */
  precondition({ right, up, deep }: Omit<GridMatrix, 'own'>, r: CellField, z: CellField): number {
    const { kernels } = this.memory;
    const { pivot, half } = this;
    return deep
      ? kernels.preconditionDeep(right.at, up.at, deep.at, pivot.at, r.at, half.at, z.at)
      : kernels.precondition(right.at, up.at, pivot.at, r.at, half.at, z.at);
  }

  /**
   * Improves x from 0 until no cell's residual exceeds `allowed` × its capacity. As the diagonal outweighs the
   * row by at least capacity over stage time, no x is then wrong by more than `allowed` × that time. On return r
   * holds what is left.
   */
  solve(matrix: GridMatrix, capacity: CellField, allowed: number, r: CellField, x: CellField): void {
    const { kernels } = this.memory;
    const { z, direction, image } = this;
    x.values.fill(0);
    direction.values.fill(0);
    let rzBefore = Number.POSITIVE_INFINITY;
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      const rz = this.precondition(matrix, r, z);
      if (rz === 0) return;
      this.iterations++;
      kernels.mix(1, z.at, rz / rzBefore, direction.at, direction.at);
      rzBefore = rz;
      const alpha = rz / this.multiply(matrix, direction, image);
      if (kernels.advance(x.at, direction.at, r.at, image.at, alpha, capacity.at, allowed)) return;
    }
  }

  /** image = matrix × p; returns p·image. */
  private multiply({ own, right, up, deep, joins }: GridMatrix, p: CellField, image: CellField): number {
    const { kernels } = this.memory;
    const product = deep
      ? kernels.multiplyDeep(own.at, right.at, up.at, deep.at, p.at, image.at)
      : kernels.multiply(own.at, right.at, up.at, p.at, image.at);
    return joins ? product + kernels.multiplyJoins(joins.at, joins.count, p.at, image.at) : product;
  }
}
