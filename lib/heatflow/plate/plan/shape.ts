import type { PlanShape } from './platePlan';

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
