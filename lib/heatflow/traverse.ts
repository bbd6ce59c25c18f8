import type { ThermalHistory } from '../history';
import { requireNumber, TemperbookError } from '../quantity';
import type { PlanPoint, PlateProbe, PlateResult } from './plate';

/** A place on a line away from a weld: a probe of a plan that knows its distance. */
export interface TraversePlace extends PlateProbe {
  readonly distanceMm: number;
}

/** What a run of the plate solver says of one place of a traverse. */
export interface TraverseHistory {
  readonly distanceMm: number;
  readonly history: ThermalHistory;
  readonly peakC: number;
  /** The place melted: what cools there is weld metal. */
  readonly molten: boolean;
  /** Plan view is doubtful here. */
  readonly doubtful: boolean;
  /** How much hotter the face under the arc may have been than the mean through the thickness, K. */
  readonly faceExcessK: number;
}

/**
 * Places on a straight line away from a weld, to be added to the probes of a plan. `fromMm` lies on the weld and
 * counts as distance 0; `towardMm` gives the direction.
 * @throws TemperbookError for a line without direction or a negative distance.
 */
export function traverse({
  name,
  fromMm,
  towardMm,
  distancesMm,
}: {
  readonly name: string;
  readonly fromMm: PlanPoint;
  readonly towardMm: PlanPoint;
  readonly distancesMm: readonly number[];
}): TraversePlace[] {
  const [dx, dy] = [towardMm[0] - fromMm[0], towardMm[1] - fromMm[1]];
  const length = Math.hypot(dx, dy);
  if (!(length > 0))
    throw new TemperbookError(`The traverse "${name}" has no direction`, {
      found: `from ${fromMm.join(', ')} mm toward ${towardMm.join(', ')} mm`,
      remedy: 'Give two different points',
    });
  return distancesMm.map((distanceMm) => {
    requireNumber(distanceMm, `A distance of the traverse "${name}" in mm`, { low: 0, high: 1e5 });
    return {
      name: `${name} ${distanceMm} mm`,
      distanceMm,
      xMm: fromMm[0] + (distanceMm / length) * dx,
      yMm: fromMm[1] + (distanceMm / length) * dy,
    };
  });
}

/**
 * The places of a traverse as a run saw them, in their order.
 * @throws TemperbookError when a place was not among the probes of the plan.
 */
export function alongTraverse(result: PlateResult, places: readonly TraversePlace[]): TraverseHistory[] {
  const { columns, rows, cellMm, originMm } = result.grid;
  // A place on the right or upper edge of the grid belongs to the last cell: there is none beyond.
  const cellAlong = (mm: number, cells: number) => Math.max(0, Math.min(Math.floor(mm / cellMm), cells - 1));
  return places.map(({ name, distanceMm, xMm, yMm }) => {
    const probe = result.probes.find((p) => p.name === name);
    if (!probe)
      throw new TemperbookError(`The run does not know the place "${name}"`, {
        remedy: 'Add the places of the traverse to the probes of the plan',
      });
    const { history, peakC, molten, doubtful } = probe;
    const cell = cellAlong(yMm - originMm[1], rows) * columns + cellAlong(xMm - originMm[0], columns);
    return { distanceMm, history, peakC, molten, doubtful, faceExcessK: result.doubt.differenceK[cell] ?? 0 };
  });
}
