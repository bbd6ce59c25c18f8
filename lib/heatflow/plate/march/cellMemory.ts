import { type KernelMemory, PAGE_BYTES, type PlateKernels, plateKernels } from '../kernels/plateKernels';
import type { PlateModel } from '../model/plateCells';

/** One number per cell, in the memory of the kernels. */
export class CellField {
  constructor(
    private readonly memory: KernelMemory,
    /** Address for the kernels. */
    readonly at: number,
    private readonly length: number,
  ) {}

  /** The numbers themselves: a view, good until the next field is made. */
  get values(): Float64Array {
    return new Float64Array(this.memory.buffer, this.at, this.length);
  }
}

const JOIN_BYTES = 24;

/** Where the joins of a plate stand in memory. */
export interface JoinTable {
  readonly at: number;
  readonly count: number;
}

/** Memory for the fields of one plate, and the kernels that work on them. */
export class CellMemory {
  readonly kernels: PlateKernels;
  private readonly memory: KernelMemory;
  private freeAt = 1024;

  constructor(private readonly model: PlateModel) {
    const { kernels, memory } = plateKernels();
    this.kernels = kernels;
    this.memory = memory;
    kernels.setGrid(model.first, model.end, model.grid.columns, model.plane);
  }

  /** A new field: zeros, or the numbers given for every cell (guard rows included). */
  field(values?: ArrayLike<number>): CellField {
    const field = new CellField(this.memory, this.take(8 * this.model.length), this.model.length);
    if (values) field.values.set(values);
    return field;
  }

  /** Room for the preconditioner's packed factor; returns where. */
  packedFactor(): number {
    return this.take(this.kernels.packedBytes());
  }

  /** Stores a table; returns its address. */
  table(values: Float64Array): number {
    const at = this.take(values.byteLength);
    new Float64Array(this.memory.buffer, at, values.length).set(values);
    return at;
  }

  /** Stores an address for every cell; returns where. */
  addresses(values: Uint32Array): number {
    const at = this.take(values.byteLength);
    new Uint32Array(this.memory.buffer, at, values.length).set(values);
    return at;
  }

  /** Stores pairs of cells with a conductance each, as `plateKernels.as` reads joins. */
  joins(pairs: readonly { readonly a: number; readonly b: number; readonly wattsPerK: number }[]): JoinTable {
    const at = this.take(Math.max(1, pairs.length) * JOIN_BYTES);
    const view = new DataView(this.memory.buffer);
    for (const [i, { a, b, wattsPerK }] of pairs.entries()) {
      view.setUint32(at + i * JOIN_BYTES, 8 * a, true);
      view.setUint32(at + i * JOIN_BYTES + 4, 8 * b, true);
      view.setFloat64(at + i * JOIN_BYTES + 8, wattsPerK, true);
    }
    return { at, count: pairs.length };
  }

  private take(bytes: number): number {
    const at = this.freeAt;
    this.freeAt += Math.ceil(bytes / 64) * 64;
    const missing = Math.ceil((this.freeAt - this.memory.buffer.byteLength) / PAGE_BYTES);
    if (missing > 0) this.memory.grow(missing);
    return at;
  }
}
