import type { Point } from './moments';

/** The part of a polygon to the left of the line from a to b (Sutherland–Hodgman; slits of no area may remain). */
export function leftOf(corners: readonly Point[], a: Point, b: Point): Point[] {
  const side = ([x, y]: Point): number => (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]);
  const kept: Point[] = [];
  for (let i = 0; i < corners.length; i++) {
    const [p, q] = [corners[i]!, corners[(i + 1) % corners.length]!];
    const [sp, sq] = [side(p), side(q)];
    if (sp >= 0) kept.push(p);
    if (sp * sq < 0) {
      const share = sp / (sp - sq);
      kept.push([p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]);
    }
  }
  return kept;
}

/** The part of a polygon inside a convex counter-clockwise one. */
export function insideConvex(corners: readonly Point[], convex: readonly Point[]): Point[] {
  let part: Point[] = [...corners];
  for (let i = 0; i < convex.length && part.length > 0; i++)
    part = leftOf(part, convex[i]!, convex[(i + 1) % convex.length]!);
  return part;
}

/** Metal within a distance of a line from a to b (or a point): convex, counter-clockwise, drawn just outside. */
export function reachAround(a: Point, b: Point, distanceMm: number): Point[] {
  const half = 24;
  // Corners of a circumscribed polygon, so that nothing within the distance is left out.
  const radius = distanceMm / Math.cos(Math.PI / (2 * half));
  const along = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const cap = (center: Point, start: number): Point[] =>
    Array.from({ length: half + 1 }, (_, k) => {
      const angle = start + (Math.PI * k) / half;
      return [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)];
    });
  return [...cap(b, along - Math.PI / 2), ...cap(a, along + Math.PI / 2)];
}

/** Length of a horizontal (across y = at) or vertical line inside a polygon. */
export function chordLength(corners: readonly Point[], axis: 'x' | 'y', at: number): number {
  const [level, along] = axis === 'y' ? [1, 0] : [0, 1];
  const cuts: number[] = [];
  for (let i = 0; i < corners.length; i++) {
    const [p, q] = [corners[i]!, corners[(i + 1) % corners.length]!];
    if (p[level]! > at === q[level]! > at) continue;
    cuts.push(p[along]! + ((at - p[level]!) / (q[level]! - p[level]!)) * (q[along]! - p[along]!));
  }
  cuts.sort((a, b) => a - b);
  let length = 0;
  for (let i = 0; i + 1 < cuts.length; i += 2) length += cuts[i + 1]! - cuts[i]!;
  return length;
}

/** Twice the area of the triangle a, b, c: positive when it turns left. */
export const turnOf = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** 1 for a left turn, −1 for a right one, 0 within rounding of a straight line. */
export function signOfTurn(a: Point, b: Point, c: Point): number {
  const turn = turnOf(a, b, c);
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]) * Math.hypot(c[0] - a[0], c[1] - a[1]);
  return Math.abs(turn) <= 1e-12 * size ? 0 : Math.sign(turn);
}

/** The first pair of edges that cross, as their numbers; null when the outline is simple. */
export function crossingEdges(corners: readonly Point[]): readonly [number, number] | null {
  const edge = (i: number): [Point, Point] => [corners[i]!, corners[(i + 1) % corners.length]!];
  for (let i = 0; i < corners.length; i++)
    for (let j = i + 2; j < corners.length; j++) {
      if (i === 0 && j === corners.length - 1) continue;
      const [[a, b], [c, d]] = [edge(i), edge(j)];
      if (turnOf(a, b, c) * turnOf(a, b, d) <= 0 && turnOf(c, d, a) * turnOf(c, d, b) <= 0) return [i, j];
    }
  return null;
}

/** Distance of a point from the edge of a polygon. */
export function edgeDistance(corners: readonly Point[], [px, py]: Point): number {
  let nearest = Infinity;
  for (let i = 0; i < corners.length; i++) {
    const [[x0, y0], [x1, y1]] = [corners[i]!, corners[(i + 1) % corners.length]!];
    const length2 = (x1 - x0) ** 2 + (y1 - y0) ** 2;
    const share = Math.min(1, Math.max(0, ((px - x0) * (x1 - x0) + (py - y0) * (y1 - y0)) / length2));
    nearest = Math.min(nearest, Math.hypot(px - x0 - share * (x1 - x0), py - y0 - share * (y1 - y0)));
  }
  return nearest;
}

/** Whether a point lies inside a polygon or within a distance of its edge. */
export function insideOrNear(corners: readonly Point[], [px, py]: Point, withinMm: number): boolean {
  if (edgeDistance(corners, [px, py]) <= withinMm) return true;
  let inside = false;
  for (let i = 0; i < corners.length; i++) {
    const [[x0, y0], [x1, y1]] = [corners[i]!, corners[(i + 1) % corners.length]!];
    if (y0 > py !== y1 > py && px < x0 + ((py - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside;
  }
  return inside;
}
