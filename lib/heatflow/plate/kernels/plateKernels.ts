import { PLATE_KERNELS_WASM } from './plateKernelsWasm';

/** Address of a field (see `plateKernels.as`). */
type Field = number;

/** The loops of `plateKernels.as`, where each is described. */
export interface PlateKernels {
  setGrid(firstCell: number, endCell: number, columns: number, cellsPerLayer: number): void;
  fillCells(
    heat: Field,
    binsPerJoule: Field,
    tableAt: Field,
    lastBin: number,
    volume: Field,
    airArea: Field,
    film: number,
    glow: number,
    ambientC: number,
    tempC: Field,
    capacity: Field,
    relativeK: Field,
    netW: Field,
    airSlope: Field,
  ): number;
  fillFaces(
    tempC: Field,
    relativeK: Field,
    faceRight: Field,
    faceUp: Field,
    right: Field,
    up: Field,
    netW: Field,
  ): void;
  fillFacesDeep(
    tempC: Field,
    relativeK: Field,
    faceRight: Field,
    faceUp: Field,
    faceDeep: Field,
    right: Field,
    up: Field,
    deep: Field,
    netW: Field,
  ): void;
  fillJoins(joins: number, count: number, tempC: Field, relativeK: Field, netW: Field): void;
  stiffenJoins(joins: number, count: number, own: Field): void;
  multiplyJoins(joins: number, count: number, p: Field, image: Field): number;
  lineariseDeep(
    base: Field,
    heat: Field,
    perS: number,
    capacity: Field,
    airSlope: Field,
    netW: Field,
    right: Field,
    up: Field,
    deep: Field,
    own: Field,
    residual: Field,
  ): void;
  linearise(
    base: Field,
    heat: Field,
    perS: number,
    capacity: Field,
    airSlope: Field,
    netW: Field,
    right: Field,
    up: Field,
    own: Field,
    residual: Field,
  ): void;
  applyChange(
    change: Field,
    residual: Field,
    shareS: number,
    capacity: Field,
    beforeC: Field,
    binsPerJoule: Field,
    tableAt: Field,
    lastBin: number,
    heat: Field,
    tempC: Field,
  ): number;
  packedBytes(): number;
  factor(own: Field, right: Field, up: Field, relaxation: number, root: Field, packed: number): void;
  factorDeep(
    own: Field,
    right: Field,
    up: Field,
    deep: Field,
    relaxation: number,
    root: Field,
    packed: number,
  ): void;
  precondition(packed: number, r: Field, z: Field): void;
  multiply(own: Field, right: Field, up: Field, p: Field, image: Field): number;
  multiplyDeep(own: Field, right: Field, up: Field, deep: Field, p: Field, image: Field): number;
  /** 1 when settled, else 0. */
  advance(
    x: Field,
    direction: Field,
    r: Field,
    image: Field,
    alpha: number,
    capacity: Field,
    allowed: number,
  ): number;
  mix(a: number, x: Field, b: number, y: Field, out: Field): void;
  dot(x: Field, y: Field): number;
  flowError(
    ofStart: number,
    start: Field,
    ofMiddle: number,
    middle: Field,
    middleBase: Field,
    ofEnd: number,
    endHeat: Field,
    endBase: Field,
    out: Field,
  ): void;
  largestError(errorK: Field, beforeC: Field, afterC: Field, meltingC: number, poolShare: number): number;
  raise(peakC: Field, tempC: Field): void;
  addAbove(seconds: Field, limitC: number, dtS: number, fromC: Field, toC: Field): void;
}

/** A block of memory the kernels work on. */
export interface KernelMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

/** What of the platform's WebAssembly is used here; TypeScript knows it only together with the browser's types. */
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Memory: new (size: { initial: number }) => KernelMemory;
  Instance: new (module: object, imports: { env: { memory: KernelMemory } }) => { readonly exports: unknown };
};

/** Bytes in a page of kernel memory. */
export const PAGE_BYTES = 65_536;

let compiled: object | undefined;

/** Kernels with a memory of their own. */
export function plateKernels(): { readonly kernels: PlateKernels; readonly memory: KernelMemory } {
  compiled ??= new WebAssembly.Module(Buffer.from(PLATE_KERNELS_WASM, 'base64'));
  const memory = new WebAssembly.Memory({ initial: 1 });
  const instance = new WebAssembly.Instance(compiled, { env: { memory } });
  return { kernels: instance.exports as PlateKernels, memory };
}
