import { centreOf } from '../model/gridPlaces';
import type { PlateModel } from '../model/plateCells';
import type { PlatePlan } from '../plan/platePlan';
import { distanceToPath } from '../plan/shape';

/** Steps up to this ratio of thickness are none: plan view is a few per cent off beside them. */
const EVEN_RATIO = 1.5;
/**
 * Plan view against the explicit three-dimensional solutions of test/heatflow/explicit, a weld along the step: beside
 * steps of 2.7, 4 and 8.3 to 1 the true rise was 1.2, 1.4 and 1.9 times that of plan view, 0.13 for every unit of the
 * ratio above 1, here taken half as much again.
 */
const SHARE_PER_RATIO = 0.2;
/**
 * How fast that falls off. Against four layers, themselves held to the explicit solutions, for steps of 8, 12 and 25 to 3,
 * 25 to 8 and 10, and 50 to 6 mm with the arc on the step and 5 to 40 mm beside it (test/heatflow/plate/stepDoubt):
 *
 * Beside the step the thick metal warms at its face before it does through its thickness, and the more slowly less of
 * that is left the further off the arc is; it is gone within a thickness or two of the thick side.
 */
const LOCAL = { perArcThick: 2, perThick: 0.5, perThickInThin: 0.7, leastInThinMm: 15 };
/**
 * And heat that cannot get into the thick side stays in the thin one and runs along it, where the arc is at the step. In the
 * thick side metal further in is rather cooler than told.
 */
const ALONG = { share: 0.85, arcMm: 24, perThick: 3.3 };
/** Of what layers miss, what is left where the arc stays so far off that heat crosses the step slowly and evenly. */
const FAR_SHARE = 0.05;
/** Where layers hold both sides of the step, two to four of them missed by up to 3 % of the rise there. */
const LAYERED_SHARE = 0.03;

/**
 * How far a step in thickness may throw off the rise of a run, K by place: near the step the thick metal warms at its
 * face long before it does through its thickness, and plan view takes it as even.
 */
export function stepDoubtK(plan: PlatePlan, model: PlateModel, peakC: Float64Array): Float64Array {
  const { grid, columnMm } = model;
  const { columns, rows, cellMm, inPart } = grid;
  const sources = new Map<string, Source>();
  for (let place = 0; place < inPart.length; place++)
    for (const [other, isNeighbour] of [
      [place + 1, (place + 1) % columns !== 0],
      [place + columns, place + columns < inPart.length],
    ] as const) {
      if (!isNeighbour) continue;
      const thin = Math.min(columnMm[place]!, columnMm[other]!);
      const thick = Math.max(columnMm[place]!, columnMm[other]!);
      if (thin === 0 || thick <= EVEN_RATIO * thin) continue;
      const isHeld = isBetweenLayers(model, place) && isBetweenLayers(model, other);
      const worst = isHeld ? LAYERED_SHARE : SHARE_PER_RATIO * (thick / thin - 1);
      const at = centreOf(model, place);
      const toArcMm = Math.min(...plan.passes.map(({ path }) => distanceToPath(path, at)));
      for (const { side, kind, near, fallMm } of waysOf(thick, toArcMm - cellMm, isHeld)) {
        const key = `${isHeld} ${side} ${kind} ${thick}`;
        const source = sources.get(key) ?? {
          side,
          thickMm: thick,
          fallMm,
          field: new Float64Array(inPart.length).fill(Number.NEGATIVE_INFINITY),
        };
        sources.set(key, source);
        for (const end of [place, other])
          source.field[end] = Math.max(source.field[end]!, Math.log(worst * near));
      }
    }
  const doubtK = new Float64Array(inPart.length);
  for (const { side, thickMm, fallMm, field } of sources.values()) {
    spread(field, columns, rows, cellMm / fallMm);
    for (let place = 0; place < inPart.length; place++)
      if (inPart[place] && (EVEN_RATIO * columnMm[place]! < thickMm ? 'thin' : 'thick') === side)
        doubtK[place] = Math.max(
          doubtK[place]!,
          Math.exp(field[place]!) * Math.abs(peakC[place]! - plan.initialC),
        );
  }
  return doubtK;
}

type Side = 'thin' | 'thick';

/** What a step leaves of its worst beside it, an arc so far off, and how fast that falls off on either side. */
function waysOf(
  thick: number,
  arcMm: number,
  isHeld: boolean,
): readonly { readonly side: Side; readonly kind: string; readonly near: number; readonly fallMm: number }[] {
  const off = Math.max(0, arcMm);
  // Through layers heat evens out over the thickness of the thick side, as it does in the metal.
  if (isHeld)
    return (['thin', 'thick'] as const).map((side) => ({
      side,
      kind: 'held',
      near: Math.max(FAR_SHARE, Math.exp(-off / thick)),
      fallMm: thick,
    }));
  const local = Math.exp(-off / (LOCAL.perArcThick * thick));
  const inThinMm = Math.max(LOCAL.leastInThinMm, LOCAL.perThickInThin * thick);
  return [
    { side: 'thick', kind: 'local', near: local, fallMm: LOCAL.perThick * thick },
    { side: 'thin', kind: 'local', near: local, fallMm: inThinMm },
    {
      side: 'thin',
      kind: 'along',
      near: ALONG.share * Math.exp(-off / ALONG.arcMm),
      fallMm: ALONG.perThick * thick,
    },
  ];
}

/** Steps of one thickness, on one of their sides: the logarithm of the share beside each, and how fast it falls off. */
interface Source {
  readonly side: Side;
  readonly thickMm: number;
  readonly fallMm: number;
  readonly field: Float64Array;
}

/**
 * Lets every place have the most that any other leaves it, falling by `perCell` for each cell of the way: two sweeps
 * over the grid with steps to the side and across, which takes a way at most 8 % too long.
 */
function spread(field: Float64Array, columns: number, rows: number, perCell: number): void {
  const across = Math.SQRT2 * perCell;
  const sweep = (way: 1 | -1) => {
    const [firstRow, firstColumn] = way > 0 ? [0, 0] : [rows - 1, columns - 1];
    for (let r = firstRow; r >= 0 && r < rows; r += way)
      for (let c = firstColumn; c >= 0 && c < columns; c += way) {
        const at = r * columns + c;
        let best = field[at]!;
        const [left, right] = [c - way >= 0 && c - way < columns, c + way >= 0 && c + way < columns];
        const below = at - way * columns;
        if (left) best = Math.max(best, field[at - way]! - perCell);
        if (r - way >= 0 && r - way < rows) {
          best = Math.max(best, field[below]! - perCell);
          if (left) best = Math.max(best, field[below - way]! - across);
          if (right) best = Math.max(best, field[below + way]! - across);
        }
        field[at] = best;
      }
  };
  sweep(1);
  sweep(-1);
}

/** Whether both faces of a place lie between two layers of a run that has more than one. */
function isBetweenLayers({ layers, depthsMm, topDepthMm, columnMm }: PlateModel, place: number): boolean {
  const isDepth = (mm: number) => depthsMm.some((depth) => Math.abs(depth - mm) < 1e-3);
  return layers > 1 && isDepth(topDepthMm[place]!) && isDepth(topDepthMm[place]! + columnMm[place]!);
}
