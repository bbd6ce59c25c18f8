import { centreOf } from '../model/gridPlaces';
import type { PlateModel } from '../model/plateCells';
import type { PlatePlan } from '../plan/platePlan';
import { distanceToPath } from '../plan/shape';

/** Steps up to this ratio of thickness are none: plan view is a few per cent off beside them. */
const EVEN_RATIO = 1.5;
/**
 * Plan view against the explicit three-dimensional solutions of test/heatflow/explicit, a weld along the step: beside
 * steps of 2.7, 4 and 8.3 to 1 the true rise was 1.2, 1.4 and 1.9 times that of plan view, 0.13 for every unit of the
 * ratio above 1, here taken half as much again. It fell off over 7, 14 and 62 mm where the thick side had 8, 12 and
 * 25 mm.
 */
const SHARE_PER_RATIO = 0.2;
const PLAIN_REACH_MM = 10;
const LEAST_REACH = 1.25;
/** Of that, what is left where the arc stays so far off that heat crosses the step slowly and evenly. */
const FAR_SHARE = 0.1;
/** Where layers hold both sides of the step, two to four of them missed by up to 3 % of the rise there. */
const LAYERED_SHARE = 0.03;

/**
 * How far a step in thickness may throw off the rise of a run, K by place: near the step the thick metal warms at its
 * face long before it does through its thickness, and plan view takes it as even.
 */
export function stepDoubtK(plan: PlatePlan, model: PlateModel, peakC: Float64Array): Float64Array {
  const { grid, columnMm } = model;
  const { columns, rows, cellMm, inPart } = grid;
  const share = new Float64Array(inPart.length);
  for (let place = 0; place < inPart.length; place++)
    for (const [other, isNeighbour] of [
      [place + 1, (place + 1) % columns !== 0],
      [place + columns, place + columns < inPart.length],
    ] as const) {
      if (!isNeighbour) continue;
      const [thin, thick] = [columnMm[place]!, columnMm[other]!].sort((a, b) => a - b) as [number, number];
      if (thin === 0 || thick <= EVEN_RATIO * thin) continue;
      const isHeld = isBetweenLayers(model, place) && isBetweenLayers(model, other);
      const worst = isHeld ? LAYERED_SHARE : SHARE_PER_RATIO * (thick / thin - 1);
      // Through layers heat evens out over the thickness of the thick side, as it does in the metal.
      const fallMm = isHeld ? thick : thick * Math.max(LEAST_REACH, thick / PLAIN_REACH_MM);
      const span = Math.ceil((3 * fallMm) / cellMm);
      const [x, y] = centreOf(model, place);
      const toArcMm = Math.min(...plan.passes.map(({ path }) => distanceToPath(path, [x, y])));
      const near = worst * Math.max(FAR_SHARE, Math.exp(-Math.max(0, toArcMm - cellMm) / thick));
      const [column, row] = [place % columns, Math.floor(place / columns)];
      for (let r = Math.max(0, row - span); r <= Math.min(rows - 1, row + span); r++)
        for (let c = Math.max(0, column - span); c <= Math.min(columns - 1, column + span); c++) {
          const at = r * columns + c;
          if (!inPart[at]) continue;
          const [ax, ay] = centreOf(model, at);
          const here = near * Math.exp(-Math.max(0, Math.hypot(ax - x, ay - y) - cellMm) / fallMm);
          if (here > share[at]!) share[at] = here;
        }
    }
  return share.map((part, place) => part * Math.abs(peakC[place]! - plan.initialC));
}

/** Whether both faces of a place lie between two layers of a run that has more than one. */
function isBetweenLayers({ layers, depthsMm, topDepthMm, columnMm }: PlateModel, place: number): boolean {
  const isDepth = (mm: number) => depthsMm.some((depth) => Math.abs(depth - mm) < 1e-3);
  return layers > 1 && isDepth(topDepthMm[place]!) && isDepth(topDepthMm[place]! + columnMm[place]!);
}
