import { requireNumber, TemperbookError } from '../../quantity';
import type { Point } from '../shape/moments';

/** One straight line of fillet in the plane of the joint. */
export interface FilletLine {
  readonly fromMm: Point;
  readonly toMm: Point;
  readonly throatMm: number;
}

/** Forces on a joint: x and y in its plane, z along the member that ends on it. All zero unless given. */
export interface JointLoad {
  readonly forceXN?: number;
  readonly forceYN?: number;
  readonly forceZN?: number;
  /** Bends about the x axis: tension at +y. */
  readonly momentXNmm?: number;
  /** Bends about the y axis: tension at +x. */
  readonly momentYNmm?: number;
  /** Twists in the plane of the joint. */
  readonly torsionNmm?: number;
  /** Where the forces act, mm; the centroid of the lines unless given. */
  readonly atMm?: Point;
}

/** Stress on the throat where it is largest. */
export interface FilletStress {
  /** Force per area of throat, plain vector sum, MPa: to be held against a shear strength. */
  readonly vectorSumMPa: number;
  /** √(σ⊥² + 3(τ⊥² + τ∥²)) of EN 1999-1-1 cl. 8.6.3.3 with the throat at 45°, MPa: against f_w. */
  readonly combinedMPa: number;
  readonly atMm: Point;
  /** Area of all throats, mm². */
  readonly throatAreaMm2: number;
}

/**
 * Elastic stress in a group of fillets: forces over the throat area, moments by the second moments of the lines, a
 * force off the centroid as a moment in the plane. The plain vector sum is used, which is never below the book rule
 * √((σ/2)² + τ²); the two differ by up to a factor of 2.
 *
 * On a throat at 45° a force z along the member gives σ⊥ = τ⊥ = z/√2, a force a in the plane across the line the same
 * with one sign turned (the worse is taken), and a force with the line τ∥.
 *
 * The largest stress is at an end of a line. Curved welds are given as chords. Source: elementary; the combined rule
 * from memory; the book rule in V. B. Bhandari, Design of Machine Elements, ex. 8.13.
 * @throws TemperbookError for lines without length or throat, or a twist on lines that all meet in one point.
 */
export function filletGroup(lines: readonly FilletLine[], load: JointLoad): FilletStress {
  checkLines(lines);
  let [area, sx, sy] = [0, 0, 0];
  for (const line of lines) {
    const { length, middle } = measure(line);
    area += length * line.throatMm;
    sx += length * line.throatMm * middle[0];
    sy += length * line.throatMm * middle[1];
  }
  const centre: Point = [sx / area, sy / area];
  let [ix, iy, ixy] = [0, 0, 0];
  for (const { fromMm, toMm, throatMm } of lines) {
    const [x0, y0] = [fromMm[0] - centre[0], fromMm[1] - centre[1]];
    const [x1, y1] = [toMm[0] - centre[0], toMm[1] - centre[1]];
    const share = (Math.hypot(x1 - x0, y1 - y0) * throatMm) / 3;
    ix += share * (y0 * y0 + y0 * y1 + y1 * y1);
    iy += share * (x0 * x0 + x0 * x1 + x1 * x1);
    ixy += share * (x0 * y0 + x1 * y1 + (x0 * y1 + x1 * y0) / 2);
  }
  const { forceXN = 0, forceYN = 0, forceZN = 0, momentXNmm = 0, momentYNmm = 0, torsionNmm = 0 } = load;
  const [ex, ey] = load.atMm ? [load.atMm[0] - centre[0], load.atMm[1] - centre[1]] : [0, 0];
  const mx = momentXNmm + forceZN * ey;
  const my = momentYNmm + forceZN * ex;
  const twist = torsionNmm + forceYN * ex - forceXN * ey;
  const det = ix * iy - ixy * ixy;
  const flat = det <= 1e-9 * (ix + iy) ** 2;
  if (flat && Math.abs(mx) + Math.abs(my) > 0) requireInLine(ix, iy, mx, my);
  const kx = flat ? my / (iy || 1) : (my * ix - mx * ixy) / det;
  const ky = flat ? mx / (ix || 1) : (mx * iy - my * ixy) / det;
  const polar = ix + iy;
  let best: FilletStress = { vectorSumMPa: 0, combinedMPa: 0, atMm: centre, throatAreaMm2: area };
  for (const line of lines) {
    const { along } = measure(line);
    for (const at of [line.fromMm, line.toMm]) {
      const [rx, ry] = [at[0] - centre[0], at[1] - centre[1]];
      const px = forceXN / area - (twist * ry) / polar;
      const py = forceYN / area + (twist * rx) / polar;
      const pz = forceZN / area + kx * rx + ky * ry;
      const parallel = px * along[0] + py * along[1];
      const across = px * along[1] - py * along[0];
      const vectorSumMPa = Math.hypot(px, py, pz);
      // σ⊥ = (z + a)/√2, τ⊥ = (z − a)/√2 with whichever sign of a is worse.
      const combinedMPa = Math.sqrt(2 * (pz ** 2 + across ** 2 + Math.abs(pz * across)) + 3 * parallel ** 2);
      if (combinedMPa > best.combinedMPa || best.combinedMPa === 0)
        best = { ...best, combinedMPa, atMm: at, vectorSumMPa: Math.max(best.vectorSumMPa, vectorSumMPa) };
      else if (vectorSumMPa > best.vectorSumMPa) best = { ...best, vectorSumMPa };
    }
  }
  return best;
}

/** A round weld as chords, as many as hold its second moments to a part in a thousand. */
export function roundFillet(diameterMm: number, throatMm: number): FilletLine[] {
  const count = 72;
  // Chords of a circle of the same circumference, so that area and stress are not flattered.
  const radius = ((diameterMm / 2) * Math.PI) / count / Math.sin(Math.PI / count);
  const at = (k: number): Point => [
    radius * Math.cos((2 * Math.PI * k) / count),
    radius * Math.sin((2 * Math.PI * k) / count),
  ];
  return Array.from({ length: count }, (_, k) => ({ fromMm: at(k), toMm: at(k + 1), throatMm }));
}

/** Throat of an equal-leg fillet: 0.707 of the leg. */
export const throatOfLeg = (legMm: number): number => legMm * Math.SQRT1_2;

function measure({ fromMm, toMm }: FilletLine) {
  const [dx, dy] = [toMm[0] - fromMm[0], toMm[1] - fromMm[1]];
  const length = Math.hypot(dx, dy);
  return {
    length,
    middle: [(fromMm[0] + toMm[0]) / 2, (fromMm[1] + toMm[1]) / 2] as Point,
    along: [dx / length, dy / length] as Point,
  };
}

function checkLines(lines: readonly FilletLine[]): void {
  if (lines.length === 0) throw new TemperbookError('A group of fillets needs at least one line');
  for (const [i, line] of lines.entries()) {
    requireNumber(line.throatMm, `Throat of fillet ${i + 1} in mm`, { low: 0.5, high: 50 });
    for (const value of [...line.fromMm, ...line.toMm])
      requireNumber(value, `An end of fillet ${i + 1} in mm`, { low: -5000, high: 5000 });
    if (measure(line).length < 1)
      throw new TemperbookError(`Fillet ${i + 1} has no length`, { expected: 'at least 1 mm' });
  }
}

/** Lines all in one direction resist no moment about it. */
function requireInLine(ix: number, iy: number, mx: number, my: number): void {
  const small = 1e-9 * (ix + iy);
  if ((ix > small || mx === 0) && (iy > small || my === 0)) return;
  throw new TemperbookError('One line of fillet resists no bending about itself', {
    remedy: 'Give the fillets of both sides',
  });
}
