import { TemperbookError } from '../../quantity';
import { type Point, polygonMoments } from './moments';
import { edgeDistance, insideOrNear, signOfTurn, turnOf } from './polygon';

/** Triangles of an outline: corners counter-clockwise by their number; the ring a point lies on, or −1. */
export interface TriangleMesh {
  readonly points: readonly Point[];
  readonly ring: readonly number[];
  readonly triangles: readonly Triangle[];
}
/** Its corners by their number. */
export type Triangle = readonly [number, number, number];

const key = (a: number, b: number): number => (a < b ? a * 1e6 + b : b * 1e6 + a);

/**
 * Triangles between an outline (counter-clockwise) and its holes (clockwise), about as many as asked: holes are joined
 * to the outline by bridges, ears are cut off, points of a grid added inside, edges flipped to the Delaunay choice.
 */
export function triangulate(rings: readonly (readonly Point[])[], count: number): TriangleMesh {
  const area = rings.reduce((sum, corners) => sum + polygonMoments(corners).area, 0);
  // The side of an equilateral triangle of the mean area.
  const sideMm = Math.sqrt((4 * area) / (Math.sqrt(3) * count));
  const cut = rings.map((corners) => shortEdges(corners, sideMm));
  const points = cut.flat();
  const ring = cut.flatMap((corners, k) => corners.map(() => k));
  const start = cut.map((_, k) => cut.slice(0, k).reduce((sum, r) => sum + r.length, 0));
  const loops = cut.map((corners, k) => corners.map((_, i) => start[k]! + i));
  let mesh = flipped({ points, ring, triangles: cutEars(points, bridged(points, loops)) });
  for (const at of gridInside(rings, sideMm)) mesh = withPoint(mesh, at);
  return flipped(mesh);
}

/** The same ring with points added so that no edge is longer than a side. */
function shortEdges(corners: readonly Point[], sideMm: number): Point[] {
  return corners.flatMap((p, i): Point[] => {
    const q = corners[(i + 1) % corners.length]!;
    const parts = Math.ceil(distance(p, q) / sideMm);
    return Array.from({ length: parts }, (_, k) => [
      p[0] + (k / parts) * (q[0] - p[0]),
      p[1] + (k / parts) * (q[1] - p[1]),
    ]);
  });
}

/** Points of a triangular grid inside the metal, none nearer to an edge than half a side. */
function gridInside([outer, ...holes]: readonly (readonly Point[])[], sideMm: number): Point[] {
  const [xs, ys] = [outer!.map(([x]) => x), outer!.map(([, y]) => y)];
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const rowMm = (sideMm * Math.sqrt(3)) / 2;
  const found: Point[] = [];
  for (let row = 1; y0 + row * rowMm < y1; row++)
    for (let x = x0 + (row % 2 ? 0.5 : 1) * sideMm; x < x1; x += sideMm) {
      const at: Point = [x, y0 + row * rowMm];
      const inMetal =
        insideOrNear(outer!, at, 0) && !holes.some((hole) => insideOrNear(hole, at, sideMm / 2));
      if (inMetal && edgeDistance(outer!, at) > sideMm / 2) found.push(at);
    }
  return found;
}

/** The triangle that holds a point, in three. */
function withPoint({ points, ring, triangles }: TriangleMesh, at: Point): TriangleMesh {
  const inside = triangles.findIndex(([a, b, c]) =>
    [
      [a, b],
      [b, c],
      [c, a],
    ].every(([p, q]) => signOfTurn(points[p!]!, points[q!]!, at) > 0),
  );
  // On an edge between two triangles: the mesh does without this point.
  if (inside < 0) return { points, ring, triangles };
  const [a, b, c] = triangles[inside]!;
  const k = points.length;
  const three: Triangle[] = [
    [a, b, k],
    [b, c, k],
    [c, a, k],
  ];
  return {
    points: [...points, at],
    ring: [...ring, -1],
    triangles: [...triangles.slice(0, inside), ...three, ...triangles.slice(inside + 1)],
  };
}

/** Each triangle in four; edges flipped again. Straight edges of the outline stay where they are. */
export function refined({ points, ring, triangles }: TriangleMesh): TriangleMesh {
  const [all, tags] = [[...points], [...ring]];
  const uses = edgeUses(triangles);
  const middles = new Map<number, number>();
  const middle = (a: number, b: number): number => {
    const known = middles.get(key(a, b));
    if (known !== undefined) return known;
    const [p, q] = [points[a]!, points[b]!];
    middles.set(key(a, b), all.length);
    tags.push(uses.get(key(a, b))!.length === 1 ? ring[a]! : -1);
    return all.push([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]) - 1;
  };
  const four = triangles.flatMap(([a, b, c]): Triangle[] => {
    const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
    return [
      [a, ab, ca],
      [ab, b, bc],
      [ca, bc, c],
      [ab, bc, ca],
    ];
  });
  return flipped({ points: all, ring: tags, triangles: four });
}

/** Triangles on each edge, by number; an edge of the outline has one. */
export function edgeUses(triangles: readonly Triangle[]): Map<number, number[]> {
  const uses = new Map<number, number[]>();
  triangles.forEach((corners, t) => {
    for (let i = 0; i < 3; i++) {
      const edge = key(corners[i]!, corners[(i + 1) % 3]!);
      const known = uses.get(edge);
      if (known) known.push(t);
      else uses.set(edge, [t]);
    }
  });
  return uses;
}

/** Key of the edge between two points in `edgeUses`. */
export const edgeKey = key;

/** One ring that runs into every hole and back along the same bridge. */
function bridged(points: readonly Point[], [outer, ...holes]: readonly (readonly number[])[]): number[] {
  let joined = [...outer!];
  let left = [...holes];
  while (left.length > 0) {
    const edges = [joined, ...left].flatMap((loop) =>
      loop.map((a, i): readonly [number, number] => [a, loop[(i + 1) % loop.length]!]),
    );
    const crossed = (a: number, b: number): boolean =>
      edges.some(
        ([c, d]) =>
          ![c, d].some((end) => end === a || end === b) &&
          signOfTurn(points[a]!, points[b]!, points[c]!) * signOfTurn(points[a]!, points[b]!, points[d]!) <=
            0 &&
          signOfTurn(points[c]!, points[d]!, points[a]!) * signOfTurn(points[c]!, points[d]!, points[b]!) <=
            0,
      );
    const bridge = left
      .flatMap((hole) => hole.flatMap((b, at) => joined.map((a, i) => ({ hole, at, i, a, b }))))
      .map((way) => ({ ...way, length: distance(points[way.a]!, points[way.b]!) }))
      .sort((p, q) => p.length - q.length)
      .find(({ a, b }) => !crossed(a, b));
    if (!bridge) throw tangled();
    const { hole, at, i } = bridge;
    joined = [...joined.slice(0, i + 1), ...hole.slice(at), ...hole.slice(0, at + 1), ...joined.slice(i)];
    left = left.filter((other) => other !== hole);
  }
  return joined;
}

function cutEars(points: readonly Point[], loop: readonly number[]): Triangle[] {
  const rest = [...loop];
  const triangles: Triangle[] = [];
  while (rest.length > 2) {
    const n = rest.length;
    const at = rest.findIndex((b, i) => isEar(points, rest, rest[(i + n - 1) % n]!, b, rest[(i + 1) % n]!));
    if (at < 0) throw tangled();
    triangles.push([rest[(at + n - 1) % n]!, rest[at]!, rest[(at + 1) % n]!]);
    rest.splice(at, 1);
  }
  return triangles;
}

function isEar(points: readonly Point[], rest: readonly number[], a: number, b: number, c: number): boolean {
  const [p, q, r] = [points[a]!, points[b]!, points[c]!];
  if (signOfTurn(p, q, r) <= 0) return rest.length === 3;
  return !rest.some((k) => {
    if (k === a || k === b || k === c) return false;
    const at = points[k]!;
    return signOfTurn(p, q, at) >= 0 && signOfTurn(q, r, at) >= 0 && signOfTurn(r, p, at) >= 0;
  });
}

/** Flips edges whose opposite angles sum to more than half a turn, until none is left. */
function flipped(mesh: TriangleMesh): TriangleMesh {
  const { points } = mesh;
  const triangles = [...mesh.triangles];
  for (let pass = 0; pass < 200; pass++) {
    const touched = new Set<number>();
    for (const [t, u] of edgeUses(triangles).values()) {
      if (u === undefined || touched.has(t!) || touched.has(u)) continue;
      const [first, second] = [triangles[t!]!, triangles[u]!];
      const i = first.findIndex((k) => !second.includes(k));
      const [apex, a, b] = [first[i]!, first[(i + 1) % 3]!, first[(i + 2) % 3]!];
      const far = second.find((k) => !first.includes(k))!;
      if (cornerAngle(points, apex, a, b) + cornerAngle(points, far, a, b) <= Math.PI + 1e-9) continue;
      triangles[t!] = [apex, a, far];
      triangles[u] = [apex, far, b];
      touched.add(t!).add(u);
    }
    if (touched.size === 0) break;
  }
  return { ...mesh, triangles };
}

function cornerAngle(points: readonly Point[], at: number, a: number, b: number): number {
  const [o, p, q] = [points[at]!, points[a]!, points[b]!];
  const dot = (p[0] - o[0]) * (q[0] - o[0]) + (p[1] - o[1]) * (q[1] - o[1]);
  return Math.atan2(Math.abs(turnOf(o, p, q)), dot);
}

const distance = (p: Point, q: Point): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

const tangled = (): TemperbookError =>
  new TemperbookError('The outline cannot be cut into triangles', {
    remedy: 'Look for a hole that touches the outline or another hole, and for corners given twice',
  });
