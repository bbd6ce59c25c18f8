import type { PlateProbe } from '../plan/platePlan';
import { placeAt } from './gridPlaces';
import type { PlateModel } from './plateCells';

/** Cells around a point that hold metal, with the weight of each in a reading there; weights sum to 1. */
export interface PointCells {
  readonly cells: readonly number[];
  readonly weights: readonly number[];
}

/** Places of the plan around a point with metal, bilinear; none where it lies more than half a cell outside the part. */
export function placesAround(
  model: Pick<PlateModel, 'grid'>,
  xMm: number,
  yMm: number,
): { readonly places: readonly number[]; readonly weights: readonly number[] } {
  const { cellMm, originMm } = model.grid;
  const half = cellMm / 2;
  const share = (mm: number) => mm / cellMm - 0.5 - Math.floor(mm / cellMm - 0.5);
  const right = share(xMm - originMm[0]);
  const up = share(yMm - originMm[1]);
  const corners = [
    { place: placeAt(model, xMm - half, yMm - half), weight: (1 - right) * (1 - up) },
    { place: placeAt(model, xMm + half, yMm - half), weight: right * (1 - up) },
    { place: placeAt(model, xMm - half, yMm + half), weight: (1 - right) * up },
    { place: placeAt(model, xMm + half, yMm + half), weight: right * up },
  ].filter(({ place, weight }) => place >= 0 && weight > 0);
  const sum = corners.reduce((total, { weight }) => total + weight, 0);
  return { places: corners.map(({ place }) => place), weights: corners.map(({ weight }) => weight / sum) };
}

/** The cells a probe reads from. */
export function probeCells(model: PlateModel, { xMm, yMm, face, depthMm }: PlateProbe): PointCells {
  const { places, weights } = placesAround(model, xMm, yMm);
  const sum = new Map<number, number>();
  for (const [i, place] of places.entries()) {
    const down = depthMm === undefined ? atFace(model, place, face ?? 'top') : atDepth(model, place, depthMm);
    for (const { cell, weight } of down) sum.set(cell, (sum.get(cell) ?? 0) + weight * weights[i]!);
  }
  return { cells: [...sum.keys()], weights: [...sum.values()] };
}

interface Weighed {
  readonly cell: number;
  readonly weight: number;
}

/**
 * The face of a place that neither arc nor chill touches: temperature leaves it at a right angle, T = a + b z², and
 * the two outermost layers, each its mean, say a.
 */
function atFace(model: PlateModel, place: number, face: 'top' | 'bottom'): Weighed[] {
  const { topCell, bottomCell, plane, thicknessMm } = model;
  const [outer, inwards] = face === 'top' ? [topCell[place]!, plane] : [bottomCell[place]!, -plane];
  const inner = outer + inwards;
  if (model.layers === 1 || !isMetal(model, inner)) return [{ cell: outer, weight: 1 }];
  const [d, e] = [thicknessMm[outer]!, thicknessMm[inner]!];
  const [ofOuter, ofInner] = [d ** 2 / 3, ((d + e) ** 3 - d ** 3) / (3 * e)];
  return [
    { cell: outer, weight: ofInner / (ofInner - ofOuter) },
    { cell: inner, weight: -ofOuter / (ofInner - ofOuter) },
  ];
}

/** Straight between the middles of the layers. */
function atDepth(model: PlateModel, place: number, depthMm: number): Weighed[] {
  const { topCell, bottomCell, plane, thicknessMm } = model;
  let middle = thicknessMm[topCell[place]!]! / 2;
  if (depthMm <= middle) return [{ cell: topCell[place]!, weight: 1 }];
  for (let cell = topCell[place]!; cell < bottomCell[place]!; cell += plane) {
    const next = middle + (thicknessMm[cell]! + thicknessMm[cell + plane]!) / 2;
    const share = (depthMm - middle) / (next - middle);
    if (share <= 1)
      return [
        { cell, weight: 1 - share },
        { cell: cell + plane, weight: share },
      ];
    middle = next;
  }
  return [{ cell: bottomCell[place]!, weight: 1 }];
}

const isMetal = ({ thicknessMm, first, end }: PlateModel, cell: number): boolean =>
  cell >= first && cell < end && thicknessMm[cell]! > 0;
