import type { PartRegion, PlatePlan } from '../plan/platePlan';
import { boundsOf } from '../plan/shape';
import { lastAt } from './gridPlaces';
import type { PlateModel } from './plateCells';

/** Share of a region's metal that its cells may hold too much or too little. */
const UNNOTICED = 0.02;
/** Points either way at which a region is looked at: it is known to a row of them, half a percent of its bounds. */
const POINTS = 200;

/**
 * Says so where the cells hold more or less of a region than is drawn of it. A cell is all of a region or nothing
 * of it, so where a size is no multiple of the cell a strip is lost or gained, and with it heat capacity.
 */
export function lostMetalNotes({ part, cellMm }: PlatePlan, { regionOf }: PlateModel): string[] {
  const heldMm2 = new Float64Array(part.length);
  for (const region of regionOf) if (region >= 0) heldMm2[region]! += cellMm * cellMm;
  return part.flatMap(({ name, thicknessMm }, i) => {
    if (thicknessMm === 0) return [];
    const { drawnMm2, toMm2 } = areaInSight(part, i);
    const gainedMm2 = heldMm2[i]! - drawnMm2;
    if (Math.abs(gainedMm2) <= Math.max(UNNOTICED * drawnMm2, toMm2)) return [];
    const percent = Math.round(Math.abs((100 * gainedMm2) / drawnMm2));
    return [
      `The cells hold ${percent} % ${gainedMm2 < 0 ? 'less' : 'more'} metal of ${name ?? `region ${i + 1}`} than drawn: choose cells that divide its sizes, or smaller ones.`,
    ];
  });
}

/** Area of a region that no later one covers, and how well it is known, mm². */
function areaInSight(part: readonly PartRegion[], region: number): { drawnMm2: number; toMm2: number } {
  const [x0, y0, x1, y1] = boundsOf(part[region]!.shape);
  const pointMm2 = ((x1 - x0) * (y1 - y0)) / POINTS ** 2;
  let points = 0;
  for (let i = 0.5; i < POINTS; i++)
    for (let j = 0.5; j < POINTS; j++)
      if (lastAt(part, x0 + (i / POINTS) * (x1 - x0), y0 + (j / POINTS) * (y1 - y0)) === region) points++;
  return { drawnMm2: points * pointMm2, toMm2: POINTS * pointMm2 };
}
