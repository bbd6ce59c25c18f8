import { requireNumber, TemperbookError } from '../../quantity';
import { addMoments, type Moments, NOTHING, type Point, polygonMoments } from './moments';
import { crossingEdges, insideConvex, insideOrNear } from './polygon';
import type { SectionShape } from './sectionShape';
import { type ArcWall, lengthOf, partMoments, partPolygon, type StraightWall, type Wall } from './wall';

/** A section made ready for computing: walls with a mid-line, or a solid outline with holes (clockwise). */
export interface SectionBody {
  readonly walls: readonly Wall[];
  readonly solid: readonly (readonly Point[])[];
  readonly moments: Moments;
  /** Area inside the mid-line of a closed section, mm². */
  readonly enclosedMm2?: number;
}

/** Walls thicker or thinner than this are taken for a slip of units, mm. */
const WALL = { low: 0.3, high: 200 };
const WIDTH = { low: 1, high: 5000 };

/**
 * Reads a shape into walls or an outline.
 * @throws TemperbookError for dimensions that cannot be: a wall in metres, walls that meet in the middle, an outline
 * that crosses itself, plates that overlap.
 */
export function sectionBody(shape: SectionShape): SectionBody {
  switch (shape.kind) {
    case 'flat bar': {
      const [w, t] = [width(shape.widthMm, 'widthMm'), wall(shape.thicknessMm, 'thicknessMm')];
      return open([straight('bar', [-w / 2, 0], [w / 2, 0], t, { from: true, to: true })]);
    }
    case 'round tube': {
      const [d, t] = [width(shape.outsideMm, 'outsideMm'), wall(shape.wallMm, 'wallMm')];
      requireRoom(2 * t, d);
      return closed([arc('wall', [0, 0], d / 2, 0, 2 * Math.PI, t)]);
    }
    case 'rectangular tube':
      return rectangularTube(shape);
    case 'oval tube': {
      const [w, d, t] = [
        width(shape.widthMm, 'widthMm'),
        width(shape.depthMm, 'depthMm'),
        wall(shape.wallMm, 'wallMm'),
      ];
      requireRoom(2 * t, Math.min(w, d));
      return closed(stadium(w, d, t));
    }
    case 'channel': {
      const [d, b] = [width(shape.depthMm, 'depthMm'), width(shape.flangeMm, 'flangeMm')];
      const t = wall(shape.wallMm, 'wallMm');
      const tf = wall(shape.flangeThicknessMm ?? t, 'flangeThicknessMm');
      requireRoom(2 * tf, d);
      requireRoom(t, b);
      const y = d / 2 - tf / 2;
      return open([
        straight('web', [t / 2, -d / 2 + tf], [t / 2, d / 2 - tf], t),
        straight('lower flange', [0, -y], [b, -y], tf, { from: false, to: true }),
        straight('upper flange', [0, y], [b, y], tf, { from: false, to: true }),
      ]);
    }
    case 'plates':
      return plates(shape.plates);
    case 'outline':
      wall(shape.thicknessMm, 'thicknessMm');
      return outline(shape.cornersMm, shape.holesMm ?? []);
    default:
      throw new TemperbookError('The kit knows no such section', {
        found: String((shape as { kind?: unknown }).kind),
        expected: 'flat bar, round tube, rectangular tube, oval tube, channel, plates or outline',
      });
  }
}

/** Every piece of metal as a polygon, for drawing and for shear; holes come clockwise. */
export function bodyPolygons({ walls, solid }: SectionBody): (readonly Point[])[] {
  return [...walls.map((w) => partPolygon(w, [0, 1])), ...solid];
}

function rectangularTube(shape: SectionShape & { kind: 'rectangular tube' }): SectionBody {
  const [w, d] = [width(shape.widthMm, 'widthMm'), width(shape.depthMm, 'depthMm')];
  const t = wall(shape.wallMm, 'wallMm');
  requireRoom(2 * t, Math.min(w, d));
  const corner = requireNumber(shape.cornerMm ?? 0, 'cornerMm', { low: 0, high: Math.min(w, d) / 2 });
  if (corner > 0 && corner < t)
    throw new TemperbookError('The outside corner radius is smaller than the wall', {
      found: `${corner} mm radius, ${t} mm wall`,
      expected: 'at least the wall thickness, or 0 for sharp corners',
    });
  const [x, y] = [w / 2 - t / 2, d / 2 - t / 2];
  // Sharp corners belong to the flanges, so that nothing is counted twice.
  const [cutX, cutY] = corner > 0 ? [corner, corner] : [0, t];
  const half = Math.PI / 2;
  const arcs =
    corner > 0
      ? (
          [
            [1, 1, 0],
            [-1, 1, half],
            [-1, -1, 2 * half],
            [1, -1, 3 * half],
          ] as const
        ).map(([sx, sy, a]) =>
          arc('corner', [sx * (w / 2 - corner), sy * (d / 2 - corner)], corner, a, a + half, t),
        )
      : [];
  const straights = [
    straight('lower wall', [-w / 2 + cutX, -y], [w / 2 - cutX, -y], t),
    straight('upper wall', [-w / 2 + cutX, y], [w / 2 - cutX, y], t),
    straight('left wall', [-x, -d / 2 + cutY], [-x, d / 2 - cutY], t),
    straight('right wall', [x, -d / 2 + cutY], [x, d / 2 - cutY], t),
  ].filter((s) => lengthOf(s) > 1e-9);
  const midCorner = Math.max(0, corner - t / 2);
  const enclosedMm2 = (w - t) * (d - t) - (4 - Math.PI) * midCorner ** 2;
  return { ...open([...straights, ...arcs]), enclosedMm2 };
}

function stadium(w: number, d: number, t: number): Wall[] {
  const radius = Math.min(w, d) / 2;
  const flat = Math.max(w, d) - 2 * radius;
  const lying = w >= d;
  const r = radius - t / 2;
  const at = (along: number, off: number): Point => (lying ? [along, off] : [-off, along]);
  const turn = lying ? 0 : Math.PI / 2;
  const half = Math.PI / 2;
  const caps = [
    arc('end', at(flat / 2, 0), radius, turn - half, turn + half, t),
    arc('end', at(-flat / 2, 0), radius, turn + half, turn + 3 * half, t),
  ];
  if (flat < 1e-9) return caps;
  return [
    ...caps,
    straight('side', at(-flat / 2, -r), at(flat / 2, -r), t),
    straight('side', at(-flat / 2, r), at(flat / 2, r), t),
  ];
}

function plates(
  list: readonly { fromMm: Point; toMm: Point; thicknessMm: number; name?: string }[],
): SectionBody {
  if (list.length === 0) throw new TemperbookError('A section of plates needs at least one plate');
  const walls = list.map(({ fromMm, toMm, thicknessMm, name }, i) => {
    for (const value of [...fromMm, ...toMm])
      requireNumber(value, `A corner of plate ${i + 1}, mm`, { low: -WIDTH.high, high: WIDTH.high });
    const t = wall(thicknessMm, `The thickness of plate ${i + 1}`);
    width(Math.hypot(toMm[0] - fromMm[0], toMm[1] - fromMm[1]), `The length of plate ${i + 1}`);
    return straight(name ?? `plate ${i + 1}`, fromMm, toMm, t);
  });
  for (const [i, a] of walls.entries())
    for (const b of walls.slice(i + 1)) {
      const common = polygonMoments(insideConvex(partPolygon(a, [0, 1]), partPolygon(b, [0, 1]))).area;
      if (common > 0.01 * Math.min(a.thicknessMm, b.thicknessMm) ** 2)
        throw new TemperbookError('Two plates of the section overlap', {
          found: `${a.name} and ${b.name} share ${common.toFixed(1)} mm²`,
          expected: 'plates drawn to the face they meet',
        });
    }
  const joined = (own: StraightWall, end: Point): boolean =>
    walls.some((w) => {
      if (w === own) return false;
      // Touching: the end lies within this wall's thickness of the other plate's metal.
      const grown = { ...w, thicknessMm: w.thicknessMm + 1.02 * own.thicknessMm };
      const probe = polygonMoments(insideConvex(box(end, 1e-3), partPolygon(grown, [0, 1]))).area;
      return probe > 0 || endsMeet(w, end, own.thicknessMm);
    });
  return open(walls.map((w) => ({ ...w, free: { from: !joined(w, w.from), to: !joined(w, w.to) } })));
}

const endsMeet = (w: StraightWall, end: Point, withinMm: number): boolean =>
  [w.from, w.to].some(
    ([x, y]) => Math.hypot(end[0] - x, end[1] - y) <= (withinMm + w.thicknessMm) / 2 + 0.01,
  );

const box = ([x, y]: Point, half: number): Point[] => [
  [x - half, y - half],
  [x + half, y - half],
  [x + half, y + half],
  [x - half, y + half],
];

function outline(corners: readonly Point[], holes: readonly (readonly Point[])[]): SectionBody {
  const ring = (points: readonly Point[], what: string, wanted: 1 | -1): readonly Point[] => {
    if (points.length < 3)
      throw new TemperbookError(`${what} needs at least three corners`, { found: `${points.length}` });
    for (const value of points.flat())
      requireNumber(value, `A corner of ${what.toLowerCase()}, mm`, { low: -WIDTH.high, high: WIDTH.high });
    const crossing = crossingEdges(points);
    if (crossing)
      throw new TemperbookError(`${what} crosses itself`, {
        found: `the edge after corner ${crossing[0] + 1} and the edge after corner ${crossing[1] + 1} meet`,
        remedy: 'Give the corners in the order in which one walks around',
      });
    return Math.sign(polygonMoments(points).area) === wanted ? points : [...points].reverse();
  };
  const solid = [ring(corners, 'The outline', 1), ...holes.map((hole) => ring(hole, 'A hole', -1))];
  const outside = solid.slice(1).findIndex((hole) => hole.some((at) => !insideOrNear(solid[0]!, at, 0)));
  if (outside >= 0)
    throw new TemperbookError(`Hole ${outside + 1} lies outside the outline`, {
      expected: 'every corner of a hole inside the outline',
    });
  const moments = solid.map(polygonMoments).reduce((sum, m) => addMoments(sum, m), NOTHING);
  if (moments.area < 1)
    throw new TemperbookError('The outline holds no metal', { found: `${moments.area.toFixed(2)} mm²` });
  return { walls: [], solid, moments };
}

const open = (walls: readonly Wall[]): SectionBody => ({
  walls,
  solid: [],
  moments: walls.map((w) => partMoments(w, [0, 1])).reduce((sum, m) => addMoments(sum, m), NOTHING),
});

/** Arcs and straights around one hollow: the enclosed area from the mid-line's arcs and the box between them. */
function closed(walls: readonly Wall[]): SectionBody {
  const arcs = walls.filter((w): w is ArcWall => w.kind === 'arc');
  const r = arcs[0]!.radiusMm;
  const flat = walls.length > 2 ? lengthOf(walls[2]!) : 0;
  return { ...open(walls), enclosedMm2: Math.PI * r * r + 2 * r * flat };
}

function straight(
  name: string,
  from: Point,
  to: Point,
  thicknessMm: number,
  free = { from: false, to: false },
): StraightWall {
  return { kind: 'straight', name, from, to, thicknessMm, free };
}

/** An arc by its outside radius. */
function arc(
  name: string,
  center: Point,
  outsideMm: number,
  fromRad: number,
  toRad: number,
  thicknessMm: number,
): ArcWall {
  return { kind: 'arc', name, center, radiusMm: outsideMm - thicknessMm / 2, fromRad, toRad, thicknessMm };
}

const wall = (value: number, name: string): number => requireNumber(value, `${name} (in mm)`, WALL);
const width = (value: number, name: string): number => requireNumber(value, `${name} (in mm)`, WIDTH);

function requireRoom(metalMm: number, spaceMm: number): void {
  if (metalMm < spaceMm) return;
  throw new TemperbookError('The walls meet inside the section', {
    found: `${metalMm} mm of wall in ${spaceMm} mm`,
    expected: 'walls thinner than half the outside dimension',
  });
}
