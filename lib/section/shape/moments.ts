/** A point in the plane of a section, mm: x across, y up. */
export type Point = readonly [xMm: number, yMm: number];

/** Integrals of a piece of a section about the origin: ∫dA, ∫x, ∫y, ∫x², ∫y², ∫xy. Areas add and subtract. */
export interface Moments {
  readonly area: number;
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly yy: number;
  readonly xy: number;
}

/** The moments of no metal. */
export const NOTHING: Moments = { area: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0 };

/** a + factor b. */
export const addMoments = (a: Moments, b: Moments, factor = 1): Moments => ({
  area: a.area + factor * b.area,
  x: a.x + factor * b.x,
  y: a.y + factor * b.y,
  xx: a.xx + factor * b.xx,
  yy: a.yy + factor * b.yy,
  xy: a.xy + factor * b.xy,
});

/** The same piece moved by (dx, dy). */
export const movedMoments = (m: Moments, [dx, dy]: Point): Moments => ({
  area: m.area,
  x: m.x + dx * m.area,
  y: m.y + dy * m.area,
  xx: m.xx + 2 * dx * m.x + dx * dx * m.area,
  yy: m.yy + 2 * dy * m.y + dy * dy * m.area,
  xy: m.xy + dx * m.y + dy * m.x + dx * dy * m.area,
});

/** Integrals over a polygon, exact (Green's theorem); positive for counter-clockwise corners. */
export function polygonMoments(corners: readonly Point[]): Moments {
  let [area, x, y, xx, yy, xy] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < corners.length; i++) {
    const [x0, y0] = corners[i]!;
    const [x1, y1] = corners[(i + 1) % corners.length]!;
    const cross = x0 * y1 - x1 * y0;
    area += cross / 2;
    x += (cross * (x0 + x1)) / 6;
    y += (cross * (y0 + y1)) / 6;
    xx += (cross * (x0 * x0 + x0 * x1 + x1 * x1)) / 12;
    yy += (cross * (y0 * y0 + y0 * y1 + y1 * y1)) / 12;
    xy += (cross * (x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0)) / 24;
  }
  return { area, x, y, xx, yy, xy };
}

/** Centroid and second moments about it. */
export interface SectionProperties {
  readonly areaMm2: number;
  readonly centroidMm: Point;
  /** ∫(y − y_c)² dA: resists bending about the x axis. */
  readonly secondMomentXMm4: number;
  /** ∫(x − x_c)² dA: resists bending about the y axis. */
  readonly secondMomentYMm4: number;
  readonly productMomentMm4: number;
}

/** Area, centroid and central second moments from integrals about the origin (parallel axes). */
export function propertiesOf({ area, x, y, xx, yy, xy }: Moments): SectionProperties {
  return {
    areaMm2: area,
    centroidMm: [x / area, y / area],
    secondMomentXMm4: yy - (y * y) / area,
    secondMomentYMm4: xx - (x * x) / area,
    productMomentMm4: xy - (x * y) / area,
  };
}
