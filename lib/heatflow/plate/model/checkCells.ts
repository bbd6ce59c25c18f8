import { TemperbookError } from '../../../quantity';
import { legsOf } from '../march/arcSource';
import type { PlanShape, PlatePlan } from '../plan/platePlan';
import { isInside } from '../plan/shape';
import { lostMetalNotes } from './lostMetal';
import type { PlateModel } from './plateModel';
import { cellAt, centreOf } from './plateModel';

/** Cells around a point that hold metal, with the weight of each in a reading there (bilinear, summing to 1). */
export interface PointCells {
  readonly cells: readonly number[];
  readonly weights: readonly number[];
}

/** The metal around a point; none where the point lies more than half a cell outside the part. */
export function cellsAround(model: PlateModel, xMm: number, yMm: number): PointCells {
  const half = model.grid.cellMm / 2;
  const { cellMm, originMm } = model.grid;
  const share = (mm: number) => mm / cellMm - 0.5 - Math.floor(mm / cellMm - 0.5);
  const right = share(xMm - originMm[0]);
  const up = share(yMm - originMm[1]);
  const corners = [
    { cell: cellAt(model, xMm - half, yMm - half), weight: (1 - right) * (1 - up) },
    { cell: cellAt(model, xMm + half, yMm - half), weight: right * (1 - up) },
    { cell: cellAt(model, xMm - half, yMm + half), weight: (1 - right) * up },
    { cell: cellAt(model, xMm + half, yMm + half), weight: right * up },
  ].filter(({ cell, weight }) => cell >= 0 && weight > 0);
  const sum = corners.reduce((total, { weight }) => total + weight, 0);
  return { cells: corners.map(({ cell }) => cell), weights: corners.map(({ weight }) => weight / sum) };
}

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
      throw new TemperbookError(`No cell of the part is ${nameOf(i)}`, {
        found: `cells of ${cellMm} mm`,
        remedy:
          'Choose smaller cells, or put the region later in the list: where regions overlap the later wins',
      });
  for (const [i, contact] of model.contacts.entries())
    if (contact.cells.length === 0)
      throw new TemperbookError(`${contacts[i]!.name ?? `Contact ${i + 1}`} touches no metal`, {
        remedy: 'Check its place, or choose smaller cells',
      });
  for (const [i, { shape }] of preheat.entries())
    if (!hasMetal(model, shape))
      throw new TemperbookError(`Preheat area ${i + 1} covers no metal`, {
        found: JSON.stringify(shape),
        remedy: 'Check its place, or choose smaller cells',
      });
  for (const [i, pass] of passes.entries())
    for (const { from, along, lengthMm } of legsOf(pass)) {
      const places = Math.ceil(lengthMm / (cellMm / 2));
      for (let k = 0; k <= places; k++) {
        const [x, y] = [0, 1].map((axis) => from[axis]! + (along[axis]! * lengthMm * k) / places) as [
          number,
          number,
        ];
        if (cellsAround(model, x, y).cells.length === 0)
          throw new TemperbookError(`The path of ${pass.name ?? `pass ${i + 1}`} leaves the part`, {
            found: `x ${x.toFixed(1)} mm, y ${y.toFixed(1)} mm, where there is no metal`,
            remedy: 'Keep every point of the path on a region, or let the pass end and start another',
          });
      }
    }
  for (const { name, xMm, yMm } of probes)
    if (cellsAround(model, xMm, yMm).cells.length === 0)
      throw new TemperbookError(`Probe "${name}" is not on the part`, {
        found: `x ${xMm} mm, y ${yMm} mm, where there is no metal`,
        remedy: 'Give a point inside a region',
      });
  return [
    ...overlapNotes(plan, model, nameOf),
    ...lostMetalNotes(plan, model),
    ...pieceNotes(model),
    ...radiusNotes(plan),
  ];
}

function hasMetal(model: PlateModel, shape: PlanShape): boolean {
  const { first, end, thicknessMm } = model;
  for (let cell = first; cell < end; cell++)
    if (thicknessMm[cell]! > 0 && isInside(shape, ...centreOf(model, cell))) return true;
  return false;
}

function overlapNotes({ part }: PlatePlan, model: PlateModel, nameOf: (i: number) => string): string[] {
  const { grid, first, end, regionOf } = model;
  const covered = new Map<string, number>();
  for (let cell = first; cell < end; cell++) {
    const [x, y] = centreOf(model, cell);
    const winner = regionOf[cell]!;
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

/** Says so when the part falls into pieces that no heat can pass between. */
function pieceNotes({ first, end, grid, faceRight, faceUp, thicknessMm }: PlateModel): string[] {
  const seen = new Uint8Array(thicknessMm.length);
  let pieces = 0;
  for (let seed = first; seed < end; seed++) {
    if (seen[seed] || thicknessMm[seed] === 0) continue;
    pieces++;
    seen[seed] = 1;
    const open = [seed];
    for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
      const ways: readonly [number, number][] = [
        [cell + 1, faceRight[cell]!],
        [cell - 1, faceRight[cell - 1]!],
        [cell + grid.columns, faceUp[cell]!],
        [cell - grid.columns, faceUp[cell - grid.columns]!],
      ];
      for (const [other, conductance] of ways)
        if (conductance > 0 && !seen[other]) {
          seen[other] = 1;
          open.push(other);
        }
    }
  }
  return pieces > 1
    ? [`The part falls into ${pieces} pieces that touch at most at corners: no heat passes between them.`]
    : [];
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
