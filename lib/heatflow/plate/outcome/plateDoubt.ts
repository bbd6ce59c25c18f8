import type { PlateModel } from '../model/plateModel';
import type { PlanPoint, PlatePlan } from '../plan/platePlan';
import type { PlateDoubt } from './plateResult';
import { faceExcessK } from './throughThickness';

/** Share of a cell's rise that the difference through the thickness may reach before plan view is doubted. */
const DOUBTFUL_SHARE = 0.05;
/** Thickness ratio at a step above which the metal within one thickness of it is doubted. */
const DOUBTFUL_STEP = 2;

/** See `PlateDoubt`. `peakC` is the map of highest temperatures. */
export function plateDoubt(plan: PlatePlan, model: PlateModel, peakC: Float64Array): PlateDoubt {
  const { grid, first, end, thicknessMm, metals, metalOf } = model;
  const cells = end - first;
  const differenceK = new Float64Array(cells);
  const doubtful = new Uint8Array(cells);
  const centre = (i: number): PlanPoint => [
    grid.originMm[0] + ((i % grid.columns) + 0.5) * grid.cellMm,
    grid.originMm[1] + (Math.floor(i / grid.columns) + 0.5) * grid.cellMm,
  ];
  for (const { path, netPowerW, sourceRadiusMm } of plan.passes) {
    const radiusMm =
      typeof sourceRadiusMm === 'number'
        ? sourceRadiusMm
        : Math.min(sourceRadiusMm.acrossMm, sourceRadiusMm.aheadMm, sourceRadiusMm.behindMm);
    const profiles = new Map<string, (distanceMm: number) => number>();
    for (let i = 0; i < cells; i++) {
      const thickness = thicknessMm[first + i]!;
      if (thickness === 0) continue;
      const metal = metalOf[first + i]!;
      const key = `${metal} ${thickness}`;
      const profile =
        profiles.get(key) ?? excessProfile(netPowerW, radiusMm, thickness, metals[metal]!.conductivity);
      profiles.set(key, profile);
      differenceK[i] = Math.max(differenceK[i]!, profile(distanceToPath(path, centre(i))));
    }
  }
  for (const [k, { cells: covered }] of model.contacts.entries()) {
    const { conductanceWPerM2K, bodyC, faces = 1 } = plan.contacts![k]!;
    for (const cell of covered) {
      const depth = thicknessMm[cell]! / faces;
      const biot = (conductanceWPerM2K * 1e-6 * depth) / (3 * metals[metalOf[cell]!]!.conductivity);
      differenceK[cell - first]! += (biot / (1 + biot)) * Math.abs(peakC[cell - first]! - bodyC);
    }
  }
  for (let i = 0; i < cells; i++)
    if (differenceK[i]! > DOUBTFUL_SHARE * Math.abs(peakC[i]! - plan.initialC) && differenceK[i]! > 1)
      doubtful[i] = 1;
  markSteps(model, doubtful);
  return { differenceK, doubtful };
}

/** The excess of the heated face against distance from the path, tabulated. */
function excessProfile(
  netPowerW: number,
  radiusMm: number,
  thicknessMm: number,
  conductivityWPerMmK: number,
): (distanceMm: number) => number {
  const reach = 3 * (thicknessMm + radiusMm);
  const nodes = 60;
  const table = Array.from({ length: nodes + 1 }, (_, i) =>
    faceExcessK({ netPowerW, radiusMm, thicknessMm, conductivityWPerMmK, distanceMm: (i / nodes) * reach }),
  );
  return (distanceMm) => {
    const at = (distanceMm / reach) * nodes;
    const i = Math.floor(at);
    return i >= nodes ? 0 : table[i]! + (at - i) * (table[i + 1]! - table[i]!);
  };
}

function distanceToPath(path: readonly PlanPoint[], [x, y]: PlanPoint): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < path.length; i++) {
    const [ax, ay] = path[i - 1]!;
    const [dx, dy] = [path[i]![0] - ax, path[i]![1] - ay];
    const square = dx * dx + dy * dy;
    const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / square));
    nearest = Math.min(nearest, Math.hypot(x - ax - share * dx, y - ay - share * dy));
  }
  return nearest;
}

/** Marks the metal within one thickness of a large step in thickness, on both sides of it. */
function markSteps({ grid, first, end, thicknessMm }: PlateModel, doubtful: Uint8Array): void {
  const { columns, rows, cellMm } = grid;
  for (let cell = first; cell < end; cell++)
    for (const other of [cell + 1, cell + columns]) {
      const isWrapped = other === cell + 1 && (cell - first) % columns === columns - 1;
      const [thin, thick] = [thicknessMm[cell]!, thicknessMm[other]!].sort((a, b) => a - b) as [
        number,
        number,
      ];
      if (isWrapped || thin === 0 || thick <= DOUBTFUL_STEP * thin) continue;
      for (const side of [cell, other]) {
        const reach = Math.max(1, Math.round(thicknessMm[side]! / cellMm));
        const [column, row] = [(side - first) % columns, Math.floor((side - first) / columns)];
        for (let r = Math.max(0, row - reach + 1); r < Math.min(rows, row + reach); r++)
          for (let c = Math.max(0, column - reach + 1); c < Math.min(columns, column + reach); c++)
            if (thicknessMm[first + r * columns + c] === thicknessMm[side]) doubtful[r * columns + c] = 1;
      }
    }
}
