import { TemperbookError } from '../../../quantity';
import { passArc } from '../plan/passArc';
import type { PlanPoint, PlanShape, PlatePlan } from '../plan/platePlan';
import { boundsOf, isInside, isOnEdge } from '../plan/shape';
import { centreOf } from './gridPlaces';
import { lostMetalNotes } from './lostMetal';
import type { PlateModel } from './plateCells';
import { placesAround } from './pointCells';

/**
 * Checks what can be judged only on the cells: paths and probes lie on the part, no region, contact or
 * preheat area is lost between cells. Returns what should be known but is no error, in sentences.
 * @throws TemperbookError
 */
export function checkCells(plan: PlatePlan, model: PlateModel): string[] {
  const { part, contacts = [], preheat = [], passes, probes, cellMm } = plan;
  const nameOf = (i: number) => part[i]!.name ?? `region ${i + 1}`;
  for (const [i, region] of part.entries())
    if (region.thicknessMm > 0 && !model.regionOf.includes(i))
      throw new TemperbookError(`No cell of the plan is ${nameOf(i)}`, {
        found: `${sizeOf(region.shape)} in cells of ${cellMm} mm`,
        remedy:
          'Check its size, in mm; choose smaller cells, or put the region later in the list: where regions overlap the later wins',
      });
  for (const [i, contact] of model.contacts.entries())
    if (contact.cells.length === 0)
      throw new TemperbookError(`${contacts[i]!.name ?? `Contact ${i + 1}`} touches no metal`, {
        found: `nothing of the part in ${JSON.stringify(contacts[i]!.shape)}`,
        remedy: 'Check its place, or choose smaller cells',
      });
  for (const [i, { shape }] of preheat.entries())
    if (!hasMetal(model, shape))
      throw new TemperbookError(`Preheat area ${i + 1} covers no metal`, {
        found: JSON.stringify(shape),
        remedy: 'Check its place, or choose smaller cells',
      });
  for (const [i, pass] of passes.entries()) {
    const { lengthMm, pose, besidePose } = passArc(pass);
    const name = pass.name ?? `pass ${i + 1}`;
    const places = Math.max(1, Math.ceil(lengthMm / (cellMm / 2)));
    for (let k = 0; k <= places; k++)
      for (const at of [pose, ...(besidePose ? [besidePose] : [])]) {
        const [x, y] = at(k / places).at;
        if (isOnPart(plan, model, [x, y])) continue;
        throw new TemperbookError(`The path of ${name} leaves the part`, {
          found: `x ${x.toFixed(1)} mm, y ${y.toFixed(1)} mm, where there is no metal`,
          remedy: 'Keep every point of the path on a region, or let the pass end and start another',
        });
      }
  }
  for (const { name, xMm, yMm, depthMm = 0 } of probes) {
    const around = placesAround(model, xMm, yMm);
    if (around.places.length === 0)
      throw new TemperbookError(`Probe "${name}" is not on the part`, {
        found: `x ${xMm} mm, y ${yMm} mm, where there is no metal`,
        remedy: 'Give a point inside a region',
      });
    const thickMm = Math.max(...around.places.map((place) => model.columnMm[place]!));
    if (depthMm > thickMm)
      throw new TemperbookError(`Probe "${name}" is drilled through the part`, {
        found: `${depthMm} mm deep in ${thickMm} mm`,
        expected: `${thickMm} mm or less`,
      });
  }
  const pieces = piecesOf(model);
  if (pieces.length > 1) refusePieces(plan, model, pieces, nameOf);
  return [
    ...overlapNotes(plan, model, nameOf),
    ...lostMetalNotes(plan, model),
    ...(pieces.length > 1 ? [PIECES_NOTE] : []),
    ...radiusNotes(plan),
  ];
}

/** A path may end on any edge of the part: where a size is no multiple of the cell, no cell may be left there. */
function isOnPart({ part }: PlatePlan, model: PlateModel, [x, y]: PlanPoint): boolean {
  if (placesAround(model, x, y).places.length > 0) return true;
  return part.some(({ shape, thicknessMm }) => thicknessMm > 0 && isOnEdge(shape, x, y));
}

function sizeOf(shape: PlanShape): string {
  const [x0, y0, x1, y1] = boundsOf(shape);
  return `${Number((x1 - x0).toPrecision(3))} × ${Number((y1 - y0).toPrecision(3))} mm`;
}

function hasMetal({ grid }: PlateModel, shape: PlanShape): boolean {
  return grid.inPart.some((here, place) => here === 1 && isInside(shape, ...centreOf({ grid }, place)));
}

function overlapNotes({ part }: PlatePlan, model: PlateModel, nameOf: (i: number) => string): string[] {
  const { grid, regionOf } = model;
  const covered = new Map<string, number>();
  for (const [place, winner] of regionOf.entries()) {
    const [x, y] = centreOf(model, place);
    for (let i = 0; i < winner; i++)
      if (part[i]!.thicknessMm > 0 && isInside(part[i]!.shape, x, y)) {
        const pair = `${nameOf(winner)} over ${nameOf(i)}`;
        covered.set(pair, (covered.get(pair) ?? 0) + 1);
      }
  }
  return [...covered].map(
    ([pair, cells]) =>
      `Regions overlap, and the later one counts: ${pair} on ${(cells * grid.cellMm ** 2).toFixed(0)} mm².`,
  );
}

/** Share of the metal that may hang on by corners alone: tips of slanted outlines. */
const TIP_SHARE = 0.02;
const PIECES_NOTE =
  'A tip of the part touches the rest at most at corners of its cells: no heat passes between them.';

/** A part cannot be in pieces: no heat passes between them, and one of them would stay cold without a word. */
function refusePieces(
  plan: PlatePlan,
  { volume, regionOf, first, plane }: PlateModel,
  pieces: readonly (readonly number[])[],
  nameOf: (i: number) => string,
): void {
  const mm3 = pieces.map((cells) => cells.reduce((sum, cell) => sum + volume[cell]!, 0));
  const whole = mm3.reduce((sum, v) => sum + v, 0);
  const large = pieces.filter((_, i) => mm3[i]! > TIP_SHARE * whole);
  if (large.length < 2) return;
  const names = large.map((cells) =>
    [...new Set(cells.map((cell) => nameOf(regionOf[(cell - first) % plane]!)))].join(' with '),
  );
  throw new TemperbookError(`The part falls into ${large.length} pieces that do not touch`, {
    found: names.join(' | '),
    expected: 'regions that touch along an edge, in plan and in height',
    remedy: plan.joins
      ? 'Check topMm and the joins'
      : 'Let them touch, join them with `joins`, or plan each piece by itself',
  });
}

/** Cells that heat can pass between, piece by piece. */
function piecesOf({
  first,
  end,
  grid,
  plane,
  faceRight,
  faceUp,
  faceDeep,
  joins,
  thicknessMm,
}: PlateModel): number[][] {
  const seen = new Uint8Array(thicknessMm.length);
  const joined = new Map<number, number[]>();
  for (const { a, b } of joins.pairs) {
    joined.set(a, [...(joined.get(a) ?? []), b]);
    joined.set(b, [...(joined.get(b) ?? []), a]);
  }
  const pieces: number[][] = [];
  for (let seed = first; seed < end; seed++) {
    if (seen[seed] || thicknessMm[seed] === 0) continue;
    const piece = [seed];
    seen[seed] = 1;
    for (let i = 0; i < piece.length; i++) {
      const cell = piece[i]!;
      const reach = (other: number, conductance: number) => {
        if (!(conductance > 0) || seen[other]) return;
        seen[other] = 1;
        piece.push(other);
      };
      reach(cell + 1, faceRight[cell]!);
      reach(cell - 1, faceRight[cell - 1]!);
      reach(cell + grid.columns, faceUp[cell]!);
      reach(cell - grid.columns, faceUp[cell - grid.columns]!);
      reach(cell + plane, faceDeep[cell]!);
      reach(cell - plane, faceDeep[cell - plane] ?? 0);
      for (const other of joined.get(cell) ?? []) reach(other, 1);
    }
    pieces.push(piece);
  }
  return pieces;
}

function radiusNotes({ passes, cellMm }: PlatePlan): string[] {
  return passes.flatMap((pass, i) => {
    const radius = pass.sourceRadiusMm;
    const smallest =
      typeof radius === 'number' ? radius : Math.min(radius.acrossMm, radius.aheadMm, radius.behindMm);
    return smallest < 2 * cellMm
      ? [
          `The cells (${cellMm} mm) are coarse for the arc of ${pass.name ?? `pass ${i + 1}`} (radius ${smallest} mm): temperatures within about two cells of its path are smeared.`,
        ]
      : [];
  });
}
