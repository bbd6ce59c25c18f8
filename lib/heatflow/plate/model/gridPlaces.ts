import type { PlateGrid } from '../outcome/plateResult';
import type { PlanShape } from '../plan/platePlan';
import { isInside } from '../plan/shape';

interface OnGrid {
  readonly grid: PlateGrid;
}

/** Index of the last item of a list whose shape covers a point, −1 for none. */
export function lastAt(items: readonly { readonly shape: PlanShape }[], xMm: number, yMm: number): number {
  for (let i = items.length - 1; i >= 0; i--) if (isInside(items[i]!.shape, xMm, yMm)) return i;
  return -1;
}

/** Centre of a place, mm. */
export function centreOf({ grid }: OnGrid, place: number): [number, number] {
  const { columns, cellMm, originMm } = grid;
  return [
    originMm[0] + ((place % columns) + 0.5) * cellMm,
    originMm[1] + (Math.floor(place / columns) + 0.5) * cellMm,
  ];
}

/** The place that holds a point, or −1 where there is no metal. */
export function placeAt({ grid }: OnGrid, xMm: number, yMm: number): number {
  const column = Math.floor((xMm - grid.originMm[0]) / grid.cellMm);
  const row = Math.floor((yMm - grid.originMm[1]) / grid.cellMm);
  if (column < 0 || column >= grid.columns || row < 0 || row >= grid.rows) return -1;
  const place = row * grid.columns + column;
  return grid.inPart[place] ? place : -1;
}
