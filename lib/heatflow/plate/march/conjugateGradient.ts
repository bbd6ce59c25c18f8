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
  /** The preconditioner's factor, and the work space it is made in. */
  private readonly packed: number;
  private readonly root: CellField;
  private readonly z: CellField;
  private readonly direction: CellField;
  private readonly image: CellField;

  constructor(private readonly memory: CellMemory) {
    this.packed = memory.packedFactor();
    this.root = memory.field();
    this.z = memory.field();
    this.direction = memory.field();
    this.image = memory.field();
  }

  /** Prepares the preconditioner. It may serve later matrices as long as they are similar. */
  factor({ own, right, up, deep }: GridMatrix): void {
    const { kernels } = this.memory;
    const { packed, root } = this;
    if (deep) kernels.factorDeep(own.at, right.at, up.at, deep.at, RELAXATION, root.at, packed);
    else kernels.factor(own.at, right.at, up.at, RELAXATION, root.at, packed);
  }

  /** One pass of the preconditioner: z, which may be r itself, becomes an approximate solution for r. */
  precondition(r: CellField, z: CellField): void {
    this.memory.kernels.precondition(this.packed, r.at, z.at);
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
      this.precondition(r, z);
      const rz = kernels.dot(r.at, z.at);
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
