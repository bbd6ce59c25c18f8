import type { PlateModel } from '../model/plateCells';
import { type ArcPose, type PassArc, passArc } from '../plan/passArc';
import type { PlateFace, PlatePass } from '../plan/platePlan';
import { distanceToLine } from '../plan/shape';

/** The arc of a pass with its footprint, mm. */
export interface BurningArc {
  readonly pass: PassArc;
  readonly face: PlateFace;
  readonly acrossMm: number;
  readonly aheadMm: number;
  readonly behindMm: number;
}

/** Reads the arc of a checked pass. */
export function burningArc(pass: PlatePass): BurningArc {
  const { sourceRadiusMm: radius, face = 'top' } = pass;
  const footprint =
    typeof radius === 'number' ? { acrossMm: radius, aheadMm: radius, behindMm: radius } : radius;
  return { pass: passArc(pass), face, ...footprint };
}

/** Beyond this many radii nothing is left of the source: exp(−3 · 2.6²) = 2e-9. */
const REACH = 2.6;

/**
 * Lays the heat of an arc on the cells of its face: q exp(−3 (u²/a² + w²/b²)) with u along the travel (a = `aheadMm`
 * in front, `behindMm` behind) and w across it (b = `acrossMm`), averaged over the way the arc goes meanwhile.
 * All the net power enters the part: what an arc near an edge would spill beside it goes on beyond the edge where
 * that is joined to another, and else is spread over the rest of its footprint. The double-ended form is the plan
 * view of J. Goldak et al., Metall. Trans. B 15 (1984) 299–305.
 *
 * @param fromS,toS time since the arc was struck
 * @param heatJ receives the heat of each cell, J; cleared first
 * @returns the heat laid, J
 */
export function layHeat(
  model: PlateModel,
  arc: BurningArc,
  fromS: number,
  toS: number,
  heatJ: Float64Array,
): number {
  heatJ.fill(0);
  const { arcOnS, lengthMm, besideShare } = arc.pass;
  const smallest = Math.min(arc.acrossMm, arc.aheadMm, arc.behindMm);
  const places = Math.max(1, Math.ceil(((lengthMm / arcOnS) * (toS - fromS)) / (0.2 * smallest)));
  let laid = 0;
  for (let place = 0; place < places; place++) {
    const share = Math.min(1, (fromS + ((place + 0.5) / places) * (toS - fromS)) / arcOnS);
    const joule = (arc.pass.powerW(share) * (toS - fromS)) / places;
    layAt(model, arc, arc.pass.pose(share), (1 - besideShare) * joule, heatJ);
    if (arc.pass.besidePose) layAt(model, arc, arc.pass.besidePose(share), besideShare * joule, heatJ);
    laid += joule;
  }
  return laid;
}

/** Filler metal of a pass laid along its path, mm³ by cell. */
export function layFiller(model: PlateModel, arc: BurningArc, fillerMm2: number): Float64Array {
  const mm3 = new Float64Array(model.length);
  const { lengthMm, pose } = arc.pass;
  const places = Math.max(1, Math.ceil(lengthMm / (0.5 * arc.acrossMm)));
  for (let place = 0; place < places; place++)
    layAt(model, arc, pose((place + 0.5) / places), (fillerMm2 * lengthMm) / places, mm3);
  return mm3;
}

/** Spreads an amount over the footprint around a place. */
function layAt(model: PlateModel, arc: BurningArc, pose: ArcPose, amount: number, into: Float64Array): void {
  if (amount === 0) return;
  const cells = arc.face === 'top' ? model.topCell : model.bottomCell;
  const beyond = model.joins.images.length > 0 ? beyondJoins(model, arc, pose) : [];
  const prints = [pose, ...beyond].map((seen) => footprint(model, arc, seen));
  let sum = 0;
  for (const { weight } of prints) sum += weight;
  for (const { firstPlace, wide, weights } of prints)
    for (let i = 0; i < weights.length; i++) {
      if (weights[i] === 0) continue;
      const place = firstPlace + Math.floor(i / wide) * model.grid.columns + (i % wide);
      into[cells[place]!]! += (amount * weights[i]!) / sum;
    }
}

/** The arc as the metal beyond a joined edge sees it. */
function beyondJoins({ joins }: PlateModel, arc: BurningArc, { at, along }: ArcPose): ArcPose[] {
  const reach = REACH * Math.max(arc.acrossMm, arc.aheadMm, arc.behindMm);
  return joins.images
    .filter(({ edge: [from, to] }) => distanceToLine(from, to, at[0], at[1]) < reach)
    .map(({ point, direction }) => ({ at: point(at), along: direction(along) }));
}

/** Weights of a footprint on a block of places, row by row. */
interface Footprint {
  readonly firstPlace: number;
  readonly wide: number;
  readonly weights: Float64Array;
  readonly weight: number;
}

function footprint(
  { grid }: PlateModel,
  arc: BurningArc,
  { at, along: [alongX, alongY] }: ArcPose,
): Footprint {
  const { columns, rows, cellMm, originMm, inPart } = grid;
  const reach = REACH * Math.max(arc.acrossMm, arc.aheadMm, arc.behindMm);
  const [x, y] = [at[0] - originMm[0], at[1] - originMm[1]];
  const from = (mm: number) => Math.max(0, Math.floor(mm / cellMm));
  const to = (mm: number, count: number) => Math.min(count - 1, Math.floor(mm / cellMm));
  const [left, right] = [from(x - reach), to(x + reach, columns)];
  const [low, high] = [from(y - reach), to(y + reach, rows)];
  const wide = Math.max(0, right - left + 1);
  const weights = new Float64Array(wide * Math.max(0, high - low + 1));
  let weight = 0;
  let i = 0;
  for (let row = low; row <= high; row++)
    for (let column = left; column <= right; column++, i++) {
      if (inPart[row * columns + column] === 0) continue;
      const dx = (column + 0.5) * cellMm - x;
      const dy = (row + 0.5) * cellMm - y;
      const u = dx * alongX + dy * alongY;
      const w = dy * alongX - dx * alongY;
      const a = u > 0 ? arc.aheadMm : arc.behindMm;
      weights[i] = Math.exp(-3 * ((u / a) ** 2 + (w / arc.acrossMm) ** 2));
      weight += weights[i]!;
    }
  return { firstPlace: low * columns + left, wide, weights, weight };
}
