/**
 * Size classes of particle radius that move with their particles: the edges grow and dissolve, the count of a
 * class stays. Within a class particles are spread evenly over ln r. Classes touch; the first edge is the
 * smallest radius, and there is one edge more than there are classes.
 */
export interface SizeClasses {
  readonly edgeM: Float64Array;
  readonly perM3: Float64Array;
}

/** No particles at all. */
export const noParticles: SizeClasses = { edgeM: new Float64Array(0), perM3: new Float64Array(0) };

/** Working form of `SizeClasses`: room to grow, edges as ln(r/m). */
export interface ClassBuffer {
  count: number;
  edgeLn: Float64Array;
  perM3: Float64Array;
}

/** Classes a buffer has room for at first; at the usual class width tidying keeps populations far below. */
const FIRST_ROOM = 2000;

/** An empty buffer, or one filled from classes. */
export function classBuffer(from: SizeClasses = noParticles): ClassBuffer {
  const room = Math.max(FIRST_ROOM, from.perM3.length);
  const buffer = {
    count: from.perM3.length,
    edgeLn: new Float64Array(room + 1),
    perM3: new Float64Array(room),
  };
  buffer.perM3.set(from.perM3);
  for (let j = 0; j < from.edgeM.length; j++) buffer.edgeLn[j] = Math.log(from.edgeM[j]!);
  return buffer;
}

/** Makes room for so many classes; what the buffer holds stays. */
export function makeRoom(buffer: ClassBuffer, classes: number): void {
  if (classes <= buffer.perM3.length) return;
  const { edgeLn, perM3 } = buffer;
  buffer.edgeLn = new Float64Array(2 * classes + 1);
  buffer.perM3 = new Float64Array(2 * classes);
  buffer.edgeLn.set(edgeLn);
  buffer.perM3.set(perM3);
}

/** Copies a buffer into another. */
export function copyBuffer(from: ClassBuffer, into: ClassBuffer): void {
  makeRoom(into, from.count);
  into.count = from.count;
  into.edgeLn.set(from.edgeLn.subarray(0, from.count + 1));
  into.perM3.set(from.perM3.subarray(0, from.count));
}

/** Plain data of a buffer. */
export function sizeClasses({ count, edgeLn, perM3 }: ClassBuffer): SizeClasses {
  if (count === 0) return noParticles;
  return { edgeM: edgeLn.slice(0, count + 1).map(Math.exp), perM3: perM3.slice(0, count) };
}

/** Below this width a class counts as one radius: the mean over it would be a quotient of rounding errors. */
const POINT_WIDTH_LN = 1e-6;

/** Mean of r^power over a class, particles spread evenly over ln r, from r^power at its edges. */
export function meanPower(low: number, high: number, widthLn: number, power: number): number {
  return widthLn > POINT_WIDTH_LN ? (high - low) / (power * widthLn) : (low + high) / 2;
}

/** Puts a class of `perM3` particles under the smallest one, down to `edgeLn`. */
export function addSmallest(buffer: ClassBuffer, edgeLn: number, perM3: number): void {
  makeRoom(buffer, buffer.count + 1);
  buffer.edgeLn.copyWithin(1, 0, buffer.count + 1);
  buffer.perM3.copyWithin(1, 0, buffer.count);
  buffer.edgeLn[0] = edgeLn;
  buffer.perM3[0] = perM3;
  buffer.count++;
}

/**
 * Keeps class widths near `widthLn`: narrow neighbours are put together, wide classes halved along the slope
 * of the density. Counts are conserved; empty classes (gaps between populations) are left as they are.
 */
export function tidyClasses(buffer: ClassBuffer, widthLn: number, into: ClassBuffer): void {
  const { count, edgeLn, perM3 } = buffer;
  const density = (i: number) => (i < 0 || i >= count ? 0 : perM3[i]! / (edgeLn[i + 1]! - edgeLn[i]!));
  into.count = 0;
  into.edgeLn[0] = edgeLn[0]!;
  const push = (upperLn: number, number: number) => {
    const k = into.count;
    const last = k > 0 ? into.perM3[k - 1]! : 0;
    if (k > 0 && upperLn - into.edgeLn[k - 1]! <= widthLn && last > 0 && number > 0) {
      into.perM3[k - 1] = last + number;
      into.edgeLn[k] = upperLn;
    } else if (upperLn > into.edgeLn[k]!) {
      makeRoom(into, k + 1);
      into.perM3[k] = number;
      into.edgeLn[k + 1] = upperLn;
      into.count++;
    }
  };
  for (let i = 0; i < count; i++) {
    const low = edgeLn[i]!;
    const high = edgeLn[i + 1]!;
    const number = perM3[i]!;
    const parts = number > 0 ? Math.ceil((high - low) / (1.5 * widthLn)) : 1;
    if (parts === 1) {
      push(high, number);
      continue;
    }
    const left = density(i) - density(i - 1);
    const right = density(i + 1) - density(i);
    // Van Leer's limited rise of the density across the class: never below zero, no new extremes.
    const rise = left * right > 0 ? (2 * left * right) / (left + right) : 0;
    const tilt = Math.max(-1, Math.min(1, rise / (2 * density(i))));
    for (let k = 0; k < parts; k++) {
      const share = (1 + tilt * ((2 * k + 1) / parts - 1)) / parts;
      push(low + ((high - low) * (k + 1)) / parts, number * share);
    }
  }
}
