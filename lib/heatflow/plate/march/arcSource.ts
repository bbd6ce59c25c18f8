import type { PlateModel } from '../model/plateModel';
import type { PlanPoint, PlatePass } from '../plan/platePlan';

/** One straight leg of a pass, walked at constant speed. */
export interface ArcLeg {
  readonly from: PlanPoint;
  /** Unit vector of travel. */
  readonly along: PlanPoint;
  readonly lengthMm: number;
  readonly travelMmPerS: number;
  readonly netPowerW: number;
  readonly acrossMm: number;
  readonly aheadMm: number;
  readonly behindMm: number;
}

/** Cuts a pass into its legs, leaving out repeated points. */
export function legsOf({ path, travelMmPerS, netPowerW, sourceRadiusMm }: PlatePass): ArcLeg[] {
  const radius =
    typeof sourceRadiusMm === 'number'
      ? { acrossMm: sourceRadiusMm, aheadMm: sourceRadiusMm, behindMm: sourceRadiusMm }
      : sourceRadiusMm;
  return path.slice(1).flatMap((to, i): ArcLeg[] => {
    const from = path[i]!;
    const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (lengthMm === 0) return [];
    const along = [(to[0] - from[0]) / lengthMm, (to[1] - from[1]) / lengthMm] as const;
    return [{ from, along, lengthMm, travelMmPerS, netPowerW, ...radius }];
  });
}

/** Beyond this many radii nothing is left of the source: exp(−3 · 2.6²) = 2e-9. */
const REACH = 2.6;

/**
 * Lays the heat of an arc on the cells: q exp(−3 (u²/a² + w²/b²)) with u along the travel (a = `aheadMm` in
 * front, `behindMm` behind) and w across it (b = `acrossMm`), averaged over the way the arc goes meanwhile.
 * All the net power enters the part: what an arc near the edge would spill beside it is spread over the rest of
 * its footprint. The double-ended form is the plan view of J. Goldak et al., Metall. Trans. B 15 (1984) 299–305.
 *
 * @param fromS,toS time since the arc entered the leg
 * @param heatJ receives the heat of each cell, J; cleared first
 */
export function layHeat(
  model: PlateModel,
  leg: ArcLeg,
  fromS: number,
  toS: number,
  heatJ: Float64Array,
): void {
  heatJ.fill(0);
  const smallest = Math.min(leg.acrossMm, leg.aheadMm, leg.behindMm);
  const places = Math.max(1, Math.ceil((leg.travelMmPerS * (toS - fromS)) / (0.2 * smallest)));
  const eachJ = (leg.netPowerW * (toS - fromS)) / places;
  for (let place = 0; place < places; place++) {
    const wayMm = leg.travelMmPerS * (fromS + ((place + 0.5) / places) * (toS - fromS));
    layAt(model, leg, leg.from[0] + leg.along[0] * wayMm, leg.from[1] + leg.along[1] * wayMm, eachJ, heatJ);
  }
}

function layAt(
  model: PlateModel,
  leg: ArcLeg,
  xMm: number,
  yMm: number,
  joule: number,
  heatJ: Float64Array,
): void {
  const { grid, first, thicknessMm } = model;
  const { columns, rows, cellMm, originMm } = grid;
  const [alongX, alongY] = leg.along;
  const reach = REACH * Math.max(leg.acrossMm, leg.aheadMm, leg.behindMm);
  const within = (mm: number, count: number) => Math.max(0, Math.min(count - 1, Math.floor(mm / cellMm)));
  const x = xMm - originMm[0];
  const y = yMm - originMm[1];
  const [left, right] = [within(x - reach, columns), within(x + reach, columns)];
  const [low, high] = [within(y - reach, rows), within(y + reach, rows)];
  const weights = new Float64Array((right - left + 1) * (high - low + 1));
  let sum = 0;
  let i = 0;
  for (let row = low; row <= high; row++)
    for (let column = left; column <= right; column++, i++) {
      if (thicknessMm[first + row * columns + column] === 0) continue;
      const dx = (column + 0.5) * cellMm - x;
      const dy = (row + 0.5) * cellMm - y;
      const u = dx * alongX + dy * alongY;
      const w = dy * alongX - dx * alongY;
      const a = u > 0 ? leg.aheadMm : leg.behindMm;
      const weight = Math.exp(-3 * ((u / a) ** 2 + (w / leg.acrossMm) ** 2));
      weights[i] = weight;
      sum += weight;
    }
  i = 0;
  for (let row = low; row <= high; row++)
    for (let column = left; column <= right; column++, i++)
      heatJ[first + row * columns + column]! += (joule * weights[i]!) / sum;
}
