import type { Moments, Point } from './moments';
import type { SectionBody } from './sectionBody';
import { placeOn, type Wall } from './wall';

/** Normal force through the centroid of the full metal and moments about it. */
export interface NormalLoad {
  readonly axialN: number;
  /** Bends about the x axis: tension at +y. */
  readonly momentXNmm: number;
  /** Bends about the y axis: tension at +x. */
  readonly momentYNmm: number;
}

/** The place of the largest normal stress on reduced thickness. */
export interface StressPeak {
  readonly stressMPa: number;
  readonly atMm: Point;
}

/**
 * Largest normal stress by linear (elastic) distribution over metal given by its integrals, in which soft metal stands
 * with reduced thickness: σ = N/A + k_x (x − x_c) + k_y (y − y_c), k from M_x = k_x I_xy + k_y I_x and
 * M_y = k_x I_y + k_y I_xy, all about the centroid of the reduced metal. The axial force acts at that centroid, as the
 * codes' resistance in tension has it.
 */
export function largestStress(body: SectionBody, metal: Moments, load: NormalLoad): StressPeak {
  const { area, x, y, xx, yy, xy } = metal;
  const [xc, yc] = [x / area, y / area];
  const [ix, iy, ixy] = [yy - y * yc, xx - x * xc, xy - x * yc];
  const det = ix * iy - ixy * ixy;
  const kx = (load.momentYNmm * ix - load.momentXNmm * ixy) / det;
  const ky = (load.momentXNmm * iy - load.momentYNmm * ixy) / det;
  const mean = load.axialN / area;
  let best: StressPeak = { stressMPa: 0, atMm: [xc, yc] };
  const tryAt = (at: Point): void => {
    const stress = mean + kx * (at[0] - xc) + ky * (at[1] - yc);
    if (Math.abs(stress) > Math.abs(best.stressMPa)) best = { stressMPa: stress, atMm: at };
  };
  for (const ring of body.solid) ring.forEach(tryAt);
  for (const wall of body.walls) extremes(wall, kx, ky).forEach(tryAt);
  return best;
}

/** Places where a linear field can be largest on a wall: corners, and on an arc where its gradient points outward. */
function extremes(wall: Wall, kx: number, ky: number): Point[] {
  const half = wall.thicknessMm / 2;
  const faces = (share: number): Point[] => {
    const {
      at: [x, y],
      along: [dx, dy],
    } = placeOn(wall, share);
    return [
      [x + half * dy, y - half * dx],
      [x - half * dy, y + half * dx],
    ];
  };
  const ends = [...faces(0), ...faces(1)];
  if (wall.kind === 'straight') return ends;
  const outer = wall.radiusMm + half;
  const gradient = Math.atan2(ky, kx);
  const turn = 2 * Math.PI;
  const inside = [gradient, gradient + Math.PI].filter(
    (angle) => (((angle - wall.fromRad) % turn) + turn) % turn <= wall.toRad - wall.fromRad,
  );
  return [
    ...ends,
    ...inside.map(
      (angle): Point => [wall.center[0] + outer * Math.cos(angle), wall.center[1] + outer * Math.sin(angle)],
    ),
  ];
}
