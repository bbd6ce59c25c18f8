import { TemperbookError } from '../../../quantity';
import { joinName, lineMm } from '../plan/checkJoins';
import type { PlanLine, PlanPoint, PlateJoin } from '../plan/platePlan';
import { placeAt } from './gridPlaces';
import type { EdgeImage, JoinedCells, PlateModel } from './plateCells';

/** Points either way at which a joined cell face is looked at. */
const POINTS = 4;

type Laid = Pick<
  PlateModel,
  'grid' | 'first' | 'plane' | 'layers' | 'thicknessMm' | 'columnMm' | 'topCell' | 'bottomCell'
> & { readonly conductivity: (cell: number) => number };

/**
 * Pairs of cells that a plan's joins bring together, each with the conductance of its two half cells in series. Cell
 * faces are followed in small pieces, so that the two sides need not be cut alike.
 * @throws TemperbookError where a line is not an edge of the part, or no metal meets it.
 */
export function joinCells(joins: readonly PlateJoin[], laid: Laid): JoinedCells {
  const area = new Map<string, { a: number; b: number; mm2: number; toA: number; toB: number }>();
  const rim = new Map<number, number>();
  const face = new Map<number, number>();
  const images: EdgeImage[] = [];
  const more = (map: Map<number, number>, cell: number, mm2: number) =>
    map.set(cell, (map.get(cell) ?? 0) + mm2);
  for (const [i, join] of joins.entries()) {
    const name = joinName(join, i);
    const from = edgeOf(join.edgeMm, name, laid);
    const add = (a: number, b: number, mm2: number, toA: number, toB: number) => {
      const key = `${a} ${b}`;
      const known = area.get(key) ?? { a, b, mm2: 0, toA, toB };
      area.set(key, { ...known, mm2: known.mm2 + mm2 });
      more(rim, a, mm2);
    };
    if (join.toEdgeMm) {
      const to = edgeOf(join.toEdgeMm, name, laid);
      images.push(imageOf(from, to), imageOf(to, from));
      for (const { share, stepMm } of from.pieces) {
        const [a, b] = [from.placeAt(share), to.placeAt(share)];
        for (let layer = 0; layer < laid.layers; layer++) {
          const [ca, cb] = [a, b].map((place) => laid.first + layer * laid.plane + place) as [number, number];
          const mm = Math.min(laid.thicknessMm[ca]!, laid.thicknessMm[cb]!);
          if (mm === 0) continue;
          add(ca, cb, mm * stepMm, from.halfMm(a), to.halfMm(b));
          more(rim, cb, mm * stepMm);
        }
      }
      continue;
    }
    const onto = join.ontoMm!;
    const side = (join.face ?? 'top') === 'top' ? laid.topCell : laid.bottomCell;
    const across = normalOf(onto);
    for (const { share, stepMm } of from.pieces) {
      const a = from.placeAt(share);
      const foot = pointOn(onto, share);
      let depthMm = -laid.columnMm[a]! / 2;
      for (let layer = 0; layer < laid.layers; layer++) {
        const ca = laid.first + layer * laid.plane + a;
        const mm = laid.thicknessMm[ca]!;
        for (let k = 0; k < POINTS && mm > 0; k++) {
          const aside = depthMm + ((k + 0.5) / POINTS) * mm;
          const place = placeAt(laid, foot[0] + across[0] * aside, foot[1] + across[1] * aside);
          if (place < 0) throw offMetal(name, 'ontoMm', foot);
          const cb = side[place]!;
          add(ca, cb, (mm / POINTS) * stepMm, from.halfMm(a), laid.thicknessMm[cb]! / 2);
          more(face, cb, (mm / POINTS) * stepMm);
        }
        depthMm += mm;
      }
    }
  }
  const listed = (map: Map<number, number>) => [...map].map(([cell, mm2]) => ({ cell, mm2 }));
  return {
    pairs: [...area.values()].map(({ a, b, mm2, toA, toB }) => ({
      a,
      b,
      wattsPerK: mm2 / (toA / laid.conductivity(a) + toB / laid.conductivity(b)),
    })),
    coveredRim: listed(rim),
    coveredFace: listed(face),
    images,
  };
}

interface Edge {
  readonly line: PlanLine;
  /** Unit vector out of the metal. */
  readonly out: PlanPoint;
  readonly pieces: readonly { readonly share: number; readonly stepMm: number }[];
  placeAt(share: number): number;
  /** From the edge to the centre of a place beside it, mm. */
  halfMm(place: number): number;
}

function edgeOf(line: PlanLine, name: string, laid: Laid): Edge {
  const { cellMm } = laid.grid;
  const normal = normalOf(line);
  const at = (share: number, outMm: number) => {
    const [x, y] = pointOn(line, share);
    return placeAt(laid, x + normal[0] * outMm, y + normal[1] * outMm);
  };
  const count = Math.max(1, Math.ceil((POINTS * lineMm(line)) / cellMm));
  const shares = Array.from({ length: count }, (_, k) => (k + 0.5) / count);
  const half = cellMm / 2;
  const sides = [half, -half].map((mm) => shares.filter((share) => at(share, mm) >= 0).length);
  if (sides[0]! > 0 && sides[1]! > 0)
    throw new TemperbookError(`A line of the join "${name}" is no edge of the part`, {
      found: `metal on both sides of ${JSON.stringify(line)}`,
      expected: 'a line along an edge, metal on one side of it',
    });
  const inward = sides[0]! > 0 ? 1 : -1;
  const gap = shares.find((share) => at(share, inward * half) < 0);
  if (gap !== undefined) throw offMetal(name, 'the edge', pointOn(line, gap));
  return {
    line,
    out: [-inward * normal[0], -inward * normal[1]],
    pieces: shares.map((share) => ({ share, stepMm: lineMm(line) / count })),
    placeAt: (share) => at(share, inward * half),
    halfMm: (place) => {
      const { columns, originMm } = laid.grid;
      const x = originMm[0] + ((place % columns) + 0.5) * cellMm - line[0][0];
      const y = originMm[1] + (Math.floor(place / columns) + 0.5) * cellMm - line[0][1];
      return Math.max(cellMm / 10, Math.abs(x * normal[0] + y * normal[1]));
    },
  };
}

const offMetal = (name: string, which: string, [x, y]: PlanPoint): TemperbookError =>
  new TemperbookError(`The join "${name}" has a gap`, {
    found: `no metal beside ${which} at x ${x.toFixed(1)} mm, y ${y.toFixed(1)} mm`,
    expected: 'metal along the whole line',
    remedy:
      'Let the line run along an edge of a region; a tube laid flat is as wide as its mean circumference',
  });

/** A rigid motion that lays the outside of one edge on the inside of the other. */
function imageOf(from: Edge, to: Edge): EdgeImage {
  const [t, u] = [unit(from.line), unit(to.line)];
  const inward: PlanPoint = [-to.out[0], -to.out[1]];
  const direction = ([x, y]: PlanPoint): PlanPoint => {
    const [a, b] = [x * t[0] + y * t[1], x * from.out[0] + y * from.out[1]];
    return [a * u[0] + b * inward[0], a * u[1] + b * inward[1]];
  };
  return {
    edge: from.line,
    direction,
    point: ([x, y]) => {
      const [dx, dy] = direction([x - from.line[0][0], y - from.line[0][1]]);
      return [to.line[0][0] + dx, to.line[0][1] + dy];
    },
  };
}

const pointOn = ([[x0, y0], [x1, y1]]: PlanLine, share: number): PlanPoint => [
  x0 + share * (x1 - x0),
  y0 + share * (y1 - y0),
];
function unit(line: PlanLine): PlanPoint {
  const mm = lineMm(line);
  return [(line[1][0] - line[0][0]) / mm, (line[1][1] - line[0][1]) / mm];
}
/** Unit vector to the left of a line. */
function normalOf(line: PlanLine): PlanPoint {
  const [x, y] = unit(line);
  return [-y, x];
}
