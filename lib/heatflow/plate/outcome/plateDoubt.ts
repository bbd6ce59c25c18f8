import { centreOf } from '../model/gridPlaces';
import type { PlateModel } from '../model/plateCells';
import { passArc } from '../plan/passArc';
import type { PlatePlan } from '../plan/platePlan';
import { distanceToPath } from '../plan/shape';
import type { PlateDoubt } from './plateResult';
import { stepDoubtK } from './stepDoubt';
import { faceExcessK } from './throughThickness';

/** Share of a place's rise that the difference may reach before it is doubted. */
const DOUBTFUL_SHARE = 0.05;

/** See `PlateDoubt`. `peakC` is the map of highest temperatures. */
export function plateDoubt(plan: PlatePlan, model: PlateModel, peakC: Float64Array): PlateDoubt {
  const { grid, topCell, bottomCell, thicknessMm, metals, metalOf } = model;
  const differenceK = stepDoubtK(plan, model, peakC);
  /** Of one watt; passes share them. */
  const profiles = new Map<string, (distanceMm: number) => number>();
  for (const pass of plan.passes) {
    const { sourceRadiusMm, face = 'top', path } = pass;
    const { meanPowerW } = passArc(pass);
    const radiusMm =
      typeof sourceRadiusMm === 'number'
        ? sourceRadiusMm
        : Math.min(sourceRadiusMm.acrossMm, sourceRadiusMm.aheadMm, sourceRadiusMm.behindMm);
    for (const [place, here] of grid.inPart.entries()) {
      if (!here) continue;
      const cell = (face === 'top' ? topCell : bottomCell)[place]!;
      const thickness = thicknessMm[cell]!;
      const metal = metalOf[cell]!;
      const key = `${metal} ${thickness} ${radiusMm}`;
      const profile = profiles.get(key) ?? excessProfile(radiusMm, thickness, metals[metal]!.conductivity);
      profiles.set(key, profile);
      differenceK[place] = Math.max(
        differenceK[place]!,
        meanPowerW * profile(distanceToPath(path, centreOf(model, place))),
      );
    }
  }
  for (const [k, { cells: covered }] of model.contacts.entries()) {
    const { conductanceWPerM2K, bodyC, faces = 1 } = plan.contacts![k]!;
    for (const cell of covered) {
      const place = (cell - model.first) % model.plane;
      const depth = thicknessMm[cell]! / (model.layers === 1 ? faces : 1);
      const biot = (conductanceWPerM2K * 1e-6 * depth) / (3 * metals[metalOf[cell]!]!.conductivity);
      // A body on both faces of one layer is listed twice.
      const share = model.layers === 1 ? 1 / faces : 1;
      differenceK[place]! += share * (biot / (1 + biot)) * Math.abs(peakC[place]! - bodyC);
    }
  }
  const doubtful = Uint8Array.from(differenceK, (kelvin, place) =>
    kelvin > DOUBTFUL_SHARE * Math.abs(peakC[place]! - plan.initialC) && kelvin > 1 ? 1 : 0,
  );
  return { differenceK, doubtful };
}

/** The excess of the heated face against distance from the path for every watt, K/W, tabulated. */
function excessProfile(
  radiusMm: number,
  thicknessMm: number,
  conductivityWPerMmK: number,
): (distanceMm: number) => number {
  const reach = 3 * (thicknessMm + radiusMm);
  const nodes = 60;
  const table = Array.from({ length: nodes + 1 }, (_, i) =>
    faceExcessK({
      netPowerW: 1,
      radiusMm,
      thicknessMm,
      conductivityWPerMmK,
      distanceMm: (i / nodes) * reach,
    }),
  );
  return (distanceMm) => {
    const at = (distanceMm / reach) * nodes;
    const i = Math.floor(at);
    return i >= nodes ? 0 : table[i]! + (at - i) * (table[i + 1]! - table[i]!);
  };
}
