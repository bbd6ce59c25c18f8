import { requireNumber, TemperbookError } from '../../../quantity';
import type { PlanShape } from './platePlan';
import { boundsOf } from './shape';

/** Checks the numbers of a shape: finite, and around an area. @throws TemperbookError */
export function checkShape(shape: PlanShape, name: string): void {
  const numbers =
    'rectMm' in shape ? shape.rectMm : 'circleMm' in shape ? shape.circleMm : shape.polygonMm.flat();
  for (const value of numbers) requireNumber(value, `shape of ${name}`, { low: -1e5, high: 1e5 });
  const [x0, y0, x1, y1] = boundsOf(shape);
  const corners = 'polygonMm' in shape ? shape.polygonMm.length : 4;
  if (corners < 3 || !(x1 > x0 && y1 > y0))
    throw new TemperbookError(`The shape of ${name} has no area`, {
      found: JSON.stringify(shape),
      expected: 'x0 < x1 and y0 < y1, a radius above zero, or at least three corners',
    });
}
