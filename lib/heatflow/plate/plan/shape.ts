import type { PlanPoint, PlanShape } from './platePlan';

/** Whether a point lies inside a shape; polygons by the even–odd rule. */
export function isInside(shape: PlanShape, xMm: number, yMm: number): boolean {
  if ('rectMm' in shape) {
    const [x0, y0, x1, y1] = shape.rectMm;
    return xMm >= x0 && xMm < x1 && yMm >= y0 && yMm < y1;
  }
  if ('circleMm' in shape) {
    const [x, y, radius] = shape.circleMm;
    return (xMm - x) ** 2 + (yMm - y) ** 2 < radius ** 2;
  }
  let inside = false;
  const corners = shape.polygonMm;
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    const [xi, yi] = corners[i]!;
    const [xj, yj] = corners[j]!;
    if (yi > yMm !== yj > yMm && xMm < ((xj - xi) * (yMm - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/** Smallest upright rectangle around a shape: [x0, y0, x1, y1], mm. */
export function boundsOf(shape: PlanShape): [number, number, number, number] {
  if ('rectMm' in shape) return [...shape.rectMm];
  if ('circleMm' in shape) {
    const [x, y, radius] = shape.circleMm;
    return [x - radius, y - radius, x + radius, y + radius];
  }
  const xs = shape.polygonMm.map(([x]) => x);
  const ys = shape.polygonMm.map(([, y]) => y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** Whether a point lies on the outline of a shape, to a thousandth of a millimetre. */
export function isOnEdge(shape: PlanShape, xMm: number, yMm: number): boolean {
  if ('circleMm' in shape) {
    const [x, y, radius] = shape.circleMm;
    return Math.abs(Math.hypot(xMm - x, yMm - y) - radius) <= ON_EDGE_MM;
  }
  const corners = 'rectMm' in shape ? cornersOf(shape.rectMm) : shape.polygonMm;
  return corners.some((corner, i) => distanceToLine(corners.at(i - 1)!, corner, xMm, yMm) <= ON_EDGE_MM);
}

const ON_EDGE_MM = 1e-3;

const cornersOf = ([x0, y0, x1, y1]: readonly [number, number, number, number]): PlanPoint[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** Distance of a point from a straight line between two points, mm. */
export function distanceToLine([ax, ay]: PlanPoint, [bx, by]: PlanPoint, xMm: number, yMm: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((xMm - ax) * dx + (yMm - ay) * dy) / square));
  return Math.hypot(xMm - ax - share * dx, yMm - ay - share * dy);
}

/** Distance of a point from a path of straight lines, mm. */
export function distanceToPath(path: readonly PlanPoint[], [x, y]: PlanPoint): number {
  let nearest = Math.hypot(x - path[0]![0], y - path[0]![1]);
  for (let i = 1; i < path.length; i++)
    nearest = Math.min(nearest, distanceToLine(path[i - 1]!, path[i]!, x, y));
  return nearest;
}
