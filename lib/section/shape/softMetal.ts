import { requireNumber, TemperbookError } from '../../quantity';
import { addMoments, type Moments, NOTHING, type Point, polygonMoments } from './moments';
import { insideConvex, insideOrNear, reachAround } from './polygon';
import type { SectionBody } from './sectionBody';
import {
  joinParts,
  lengthOf,
  nearestOn,
  partMoments,
  partPolygon,
  partsNear,
  placeOn,
  type Wall,
  type WallPart,
} from './wall';

/** Where a weld lies in the section that is looked at. */
export type WeldLine =
  /** Runs along the member: a point of the section. */
  | { readonly lies: 'along'; readonly atMm: Point }
  /** Runs across all of it: a butt weld over the full width, a weld around a tube. */
  | { readonly lies: 'across' }
  /** Runs across from one point to another of one wall, on a round wall counter-clockwise. */
  | { readonly lies: 'part-way'; readonly fromMm: Point; readonly toMm: Point };

/** A weld placed on the body: the points its soft zone grows from, per wall. */
export interface PlacedWeld {
  readonly points: readonly Point[];
  readonly whole: boolean;
  /** Walls the weld lies on, where a near free edge counts. */
  readonly on: readonly Wall[];
}

/** Spacing of the points that stand for a part-way weld, mm. */
const SPACING_MM = 2;

/** Puts a weld onto the metal. @throws TemperbookError for a weld off the section. */
export function placeWeld(body: SectionBody, weld: WeldLine): PlacedWeld {
  if (weld.lies === 'across') return { points: [], whole: true, on: [] };
  if (weld.lies === 'along') {
    const { wall, at } = snap(body, weld.atMm);
    const reach = wall ? wall.thicknessMm : 0;
    return {
      points: [at],
      whole: false,
      on: body.walls.filter(
        (w) => w === wall || nearestOn(w, at).distanceMm <= (reach + w.thicknessMm) / 2 + 0.5,
      ),
    };
  }
  if (weld.lies !== 'part-way')
    throw new TemperbookError('The kit knows no such weld', {
      found: String((weld as { lies?: unknown }).lies),
      expected: 'lies: along, across or part-way',
    });
  const [from, to] = [snap(body, weld.fromMm), snap(body, weld.toMm)];
  if (from.wall !== to.wall)
    throw new TemperbookError('A part-way weld runs over more than one wall', {
      found: `from ${from.wall?.name} to ${to.wall?.name}`,
      remedy: 'Give one weld for each wall',
    });
  if (!from.wall) return { points: [from.at, to.at], whole: false, on: [] };
  const wall = from.wall;
  // On a full circle a weld may pass the start of the mid-line.
  const ahead = wall.kind === 'arc' && to.share < from.share ? to.share + 1 : to.share;
  const span = ahead - from.share;
  const steps = Math.max(1, Math.ceil((Math.abs(span) * lengthOf(wall)) / SPACING_MM));
  const points = Array.from({ length: steps + 1 }, (_, k) => {
    const share = from.share + (span * k) / steps;
    return placeOn(wall, share > 1 ? share - 1 : share).at;
  });
  return { points, whole: false, on: [wall] };
}

/**
 * The same weld on another body of the same kind, at the same share of the same wall: it stays on the metal when
 * sizing moves the walls.
 */
export function followWeld<W extends WeldLine>(weld: W, from: SectionBody, to: SectionBody): W {
  if (weld.lies === 'across' || from.walls.length === 0) return weld;
  const moved = (atMm: Point): Point => {
    const { wall, share } = snap(from, atMm);
    return placeOn(to.walls[from.walls.indexOf(wall!)]!, share).at;
  };
  return weld.lies === 'along'
    ? { ...weld, atMm: moved(weld.atMm) }
    : { ...weld, fromMm: moved(weld.fromMm), toMm: moved(weld.toMm) };
}

/** A weld with how far it softens, mm from it in every direction. */
export interface SofteningWeld extends PlacedWeld {
  readonly extentMm: number;
  /** A free edge nearer than this takes the whole outstand with it. */
  readonly edgeRuleMm: number;
}

/** Metal softened by any of the welds, as integrals and as polygons to draw. */
export interface SoftMetal {
  readonly moments: Moments;
  readonly polygons: () => (readonly Point[])[];
}

/** The union of the soft zones of the welds in a body. */
export function softMetal(body: SectionBody, welds: readonly SofteningWeld[]): SoftMetal {
  if (welds.some(({ whole }) => whole))
    return {
      moments: body.moments,
      polygons: () => [...body.walls.map((w) => partPolygon(w, [0, 1])), ...body.solid],
    };
  if (body.walls.length > 0) {
    const soft = body.walls.map((wall) => ({ wall, parts: softParts(wall, welds) }));
    const each = <T>(use: (wall: Wall, part: WallPart) => T): T[] =>
      soft.flatMap(({ wall, parts }) => parts.map((part) => use(wall, part)));
    return {
      moments: each(partMoments).reduce((sum, m) => addMoments(sum, m), NOTHING),
      polygons: () => each(partPolygon),
    };
  }
  const reaches = welds.map(({ points, extentMm }) =>
    reachAround(points[0]!, points[points.length - 1]!, extentMm),
  );
  return {
    moments: unionMoments(body.solid, reaches),
    polygons: () => reaches.flatMap((reach) => body.solid.map((ring) => insideConvex(ring, reach))),
  };
}

/** Soft parts of one wall, with the free-edge rule. */
export function softParts(wall: Wall, welds: readonly SofteningWeld[]): WallPart[] {
  const length = lengthOf(wall);
  return joinParts(
    welds.flatMap(({ points, on, extentMm, edgeRuleMm }) => {
      // Half a spacing more, so that the gaps between the points that stand for a line count as soft.
      const reach = points.length > 1 ? Math.hypot(extentMm, SPACING_MM / 2) : extentMm;
      const near = points.flatMap((point) => partsNear(wall, point, reach));
      if (wall.kind !== 'straight' || !on.includes(wall)) return near;
      const shares = points.map((point) => nearestOn(wall, point).share);
      const [first, last] = [Math.min(...shares), Math.max(...shares)];
      const edges: WallPart[] = [
        ...(wall.free.from && first * length < edgeRuleMm ? [[0, first] as WallPart] : []),
        ...(wall.free.to && (1 - last) * length < edgeRuleMm ? [[last, 1] as WallPart] : []),
      ];
      return [...near, ...edges];
    }),
  );
}

/** Inclusion and exclusion over the overlaps of the reaches; exact for polygons. */
function unionMoments(
  rings: readonly (readonly Point[])[],
  reaches: readonly (readonly Point[])[],
  sign = 1,
): Moments {
  let sum = NOTHING;
  for (const [i, reach] of reaches.entries()) {
    const inside = rings.map((ring) => insideConvex(ring, reach)).filter((ring) => ring.length > 2);
    if (inside.length === 0) continue;
    for (const ring of inside) sum = addMoments(sum, polygonMoments(ring), sign);
    sum = addMoments(sum, unionMoments(inside, reaches.slice(i + 1), -sign));
  }
  return sum;
}

/** The nearest place of the metal, when the point lies on or at it. */
function snap(body: SectionBody, atMm: Point): { wall?: Wall; share: number; at: Point } {
  for (const value of atMm) requireNumber(value, 'A place of a weld, mm', { low: -5000, high: 5000 });
  const nearest = body.walls
    .map((wall) => ({ wall, ...nearestOn(wall, atMm) }))
    .sort((a, b) => a.distanceMm - b.distanceMm)[0];
  const off = {
    found: `a weld at (${atMm.join(', ')}) mm`,
    expected:
      'a place on the metal; the origin is the middle of the section, of a channel the back of its web',
  };
  if (nearest) {
    // Anywhere on the wall's surface, and a little slack for a rounded drawing.
    if (nearest.distanceMm > nearest.wall.thicknessMm / 2 + 0.5)
      throw new TemperbookError('The weld is off the section', off);
    return { wall: nearest.wall, share: nearest.share, at: placeOn(nearest.wall, nearest.share).at };
  }
  if (!insideOrNear(body.solid[0]!, atMm, 0.5)) throw new TemperbookError('The weld is off the section', off);
  return { share: 0, at: atMm };
}
