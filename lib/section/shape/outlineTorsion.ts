import { TemperbookError } from '../../quantity';
import { type Point, polygonMoments } from './moments';
import { turnOf } from './polygon';
import type { Torsion } from './torsionConstants';
import { edgeKey, edgeUses, refined, type TriangleMesh, triangulate } from './triangulate';

/** Triangles to begin with and at most, and how near two meshes must come, as shares. */
const TRIANGLES = { from: 300, to: 40_000 };
const AGREE = { constant: 2e-3, stress: 1e-2 };
/** An inner corner that turns by more has no bound on its stress that a mesh could find. */
const SHARP_RAD = (31 * Math.PI) / 180;

/**
 * Saint-Venant torsion of a solid outline with holes by Prandtl's stress function: ∇²φ = −2 in the metal, φ = 0 on the
 * outline and constant on the edge of each hole, J = 2∫φ dA over metal and holes, τ = T |∇φ|/J. Finite elements with
 * quadratic φ on triangles, refined until J moves by less than 0.2 % and the largest stress by less than 1 %. J is
 * approached from below, so twist is never understated.
 *
 * At a sharp inner corner theory knows no bound: `stressPerNmm` is Infinity and `sharpAtMm` says where. Source:
 * S. Timoshenko & J. N. Goodier, Theory of Elasticity, ch. 10.
 * @throws TemperbookError for an outline too intricate to settle.
 */
export function outlineTorsion(rings: readonly (readonly Point[])[]): Torsion {
  const holes = rings.slice(1).map((ring) => Math.abs(polygonMoments(ring).area));
  const inner = innerCorners(rings);
  const sharpAtMm = inner.find(({ turnRad }) => turnRad > SHARP_RAD)?.at;
  let mesh = triangulate(rings, TRIANGLES.from);
  let coarse = solved(mesh, holes, inner);
  for (;;) {
    mesh = refined(mesh);
    if (mesh.triangles.length > TRIANGLES.to)
      throw new TemperbookError('Torsion of this outline does not settle', {
        remedy: 'Leave out corners that carry nothing, or describe the section as plates',
      });
    const fine = solved(mesh, holes, inner);
    const agrees =
      Math.abs(fine.constantMm4 / coarse.constantMm4 - 1) < AGREE.constant &&
      (sharpAtMm !== undefined || Math.abs(fine.stressPerNmm / coarse.stressPerNmm - 1) < AGREE.stress);
    if (agrees) return sharpAtMm ? { ...fine, stressPerNmm: Infinity, sharpAtMm } : fine;
    coarse = fine;
  }
}

/** A corner where the outline turns into the metal, and the shorter of its two edges. */
interface InnerCorner {
  readonly at: Point;
  readonly turnRad: number;
  readonly edgeMm: number;
}

function innerCorners(rings: readonly (readonly Point[])[]): InnerCorner[] {
  return rings.flatMap((ring) =>
    ring.flatMap((at, i) => {
      const [before, after] = [ring[(i + ring.length - 1) % ring.length]!, ring[(i + 1) % ring.length]!];
      const dot = (at[0] - before[0]) * (after[0] - at[0]) + (at[1] - before[1]) * (after[1] - at[1]);
      const turnRad = -Math.atan2(turnOf(before, at, after), dot);
      if (turnRad < 1e-6) return [];
      const [back, ahead] = [before, after].map((p) => Math.hypot(p[0] - at[0], p[1] - at[1]));
      return [{ at, turnRad, edgeMm: Math.min(back!, ahead!) }];
    }),
  );
}

/** A triangle with six nodes: its corners, then the middles of the edges opposite to them. */
interface Element {
  readonly nodes: readonly number[];
  readonly areaMm2: number;
  /** Gradients of the three area coordinates, 1/mm. */
  readonly slopes: readonly Point[];
  readonly stiffness: Float64Array;
}

function solved(mesh: TriangleMesh, holesMm2: readonly number[], inner: readonly InnerCorner[]): Torsion {
  const { points, triangles, ring } = mesh;
  const uses = edgeUses(triangles);
  const middles = new Map([...uses.keys()].map((edge, k) => [edge, points.length + k]));
  const middle = (a: number, b: number): number => middles.get(edgeKey(a, b))!;
  const elements = triangles.map(([a, b, c]) =>
    elementOf([points[a]!, points[b]!, points[c]!], [a, b, c, middle(b, c), middle(c, a), middle(a, b)]),
  );

  // Unknowns: 0 is the outline's fixed zero, then one for each hole, then the free nodes.
  const unknown = new Int32Array(points.length + middles.size).fill(-1);
  const edges: { readonly element: Element; readonly corner: number; readonly ends: readonly number[] }[] =
    [];
  triangles.forEach((corners, t) => {
    for (let i = 0; i < 3; i++) {
      const [a, b] = [corners[(i + 1) % 3]!, corners[(i + 2) % 3]!];
      if (uses.get(edgeKey(a, b))!.length !== 1) continue;
      for (const node of [a, b, middle(a, b)]) unknown[node] = ring[a]!;
      edges.push({ element: elements[t]!, corner: i, ends: [a, b] });
    }
  });
  let count = 1 + holesMm2.length;
  for (let k = 0; k < unknown.length; k++) if (unknown[k]! < 0) unknown[k] = count++;
  const load = new Float64Array(count);
  holesMm2.forEach((area, k) => {
    load[k + 1] = 2 * area;
  });
  for (const { nodes, areaMm2 } of elements)
    for (let i = 3; i < 6; i++) load[unknown[nodes[i]!]!]! += (2 * areaMm2) / 3;
  load[0] = 0;

  const phi = conjugateGradients(elements, unknown, load);
  const constantMm4 = load.reduce((sum, f, k) => sum + f * phi[k]!, 0);
  // At a point of the edge between two elements their slopes are averaged.
  const atPoint = new Map<number, number>();
  let steepest = 0;
  for (const { element, corner, ends } of edges) {
    const [first, middleOf, last] = edgeSlopes(element, corner, unknown, phi);
    const [p, q] = [points[ends[0]!]!, points[ends[1]!]!];
    if (counts([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], inner)) steepest = Math.max(steepest, middleOf!);
    for (const [k, slope] of [first!, last!].entries())
      atPoint.set(ends[k]!, (atPoint.get(ends[k]!) ?? 0) + slope / 2);
  }
  for (const [k, slope] of atPoint) if (counts(points[k]!, inner)) steepest = Math.max(steepest, slope);
  return { constantMm4, stressPerNmm: steepest / constantMm4 };
}

/** A radius drawn as short edges is no corner: what lies within a quarter of an edge of where two meet is left out. */
const counts = ([x, y]: Point, inner: readonly InnerCorner[]): boolean =>
  inner.every(({ at, edgeMm }) => Math.hypot(x - at[0], y - at[1]) >= 0.249 * edgeMm);

function elementOf([p, q, r]: readonly [Point, Point, Point], nodes: readonly number[]): Element {
  const twice = turnOf(p, q, r);
  const slopes: Point[] = [
    [(q[1] - r[1]) / twice, (r[0] - q[0]) / twice],
    [(r[1] - p[1]) / twice, (p[0] - r[0]) / twice],
    [(p[1] - q[1]) / twice, (q[0] - p[0]) / twice],
  ];
  const stiffness = new Float64Array(36);
  // The middles of the edges integrate the product of two linear slopes exactly.
  for (const at of [
    [0, 0.5, 0.5],
    [0.5, 0, 0.5],
    [0.5, 0.5, 0],
  ]) {
    const g = shapeSlopes(slopes, at);
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++)
        stiffness[6 * i + j]! += (twice / 6) * (g[i]![0] * g[j]![0] + g[i]![1] * g[j]![1]);
  }
  return { nodes, areaMm2: twice / 2, slopes, stiffness };
}

/** Slopes of the six quadratic shape functions at area coordinates. */
function shapeSlopes(slopes: readonly Point[], at: readonly number[]): Point[] {
  const corner = slopes.map(([x, y], i): Point => [(4 * at[i]! - 1) * x, (4 * at[i]! - 1) * y]);
  const edge = [0, 1, 2].map((i): Point => {
    const [j, k] = [(i + 1) % 3, (i + 2) % 3];
    return [
      4 * (at[j]! * slopes[k]![0] + at[k]! * slopes[j]![0]),
      4 * (at[j]! * slopes[k]![1] + at[k]! * slopes[j]![1]),
    ];
  });
  return [...corner, ...edge];
}

/** Slope of φ on the edge opposite to a corner: at its first end, its middle and its last. */
function edgeSlopes(
  { slopes, nodes }: Element,
  corner: number,
  unknown: Int32Array,
  phi: Float64Array,
): number[] {
  const [j, k] = [(corner + 1) % 3, (corner + 2) % 3];
  return [1, 0.5, 0].map((share) => {
    const at = [0, 0, 0];
    at[j] = share;
    at[k] = 1 - share;
    let [x, y] = [0, 0];
    for (const [i, [gx, gy]] of shapeSlopes(slopes, at).entries()) {
      const value = phi[unknown[nodes[i]!]!]!;
      x += value * gx;
      y += value * gy;
    }
    return Math.hypot(x, y);
  });
}

/** Solves K φ = f with φ₀ = 0, preconditioned by the diagonal, to a part in 10⁹ of the load. */
function conjugateGradients(
  elements: readonly Element[],
  unknown: Int32Array,
  load: Float64Array,
): Float64Array {
  const n = load.length;
  const times = (v: Float64Array): Float64Array => {
    const out = new Float64Array(n);
    for (const { nodes, stiffness } of elements)
      for (let i = 0; i < 6; i++) {
        let sum = 0;
        for (let j = 0; j < 6; j++) sum += stiffness[6 * i + j]! * v[unknown[nodes[j]!]!]!;
        out[unknown[nodes[i]!]!]! += sum;
      }
    out[0] = 0;
    return out;
  };
  const diagonal = new Float64Array(n);
  for (const { nodes, stiffness } of elements)
    for (let i = 0; i < 6; i++) diagonal[unknown[nodes[i]!]!]! += stiffness[7 * i]!;
  const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, k) => sum + v * b[k]!, 0);
  const phi = new Float64Array(n);
  const residual = Float64Array.from(load);
  let scaled = residual.map((v, k) => (k === 0 ? 0 : v / diagonal[k]!));
  const way = Float64Array.from(scaled);
  let rest = dot(residual, scaled);
  const enough = 1e-18 * rest;
  for (let step = 0; rest > enough && step < 20 * n; step++) {
    const forward = times(way);
    const alpha = rest / dot(way, forward);
    for (let k = 0; k < n; k++) {
      phi[k]! += alpha * way[k]!;
      residual[k]! -= alpha * forward[k]!;
    }
    scaled = residual.map((v, k) => (k === 0 ? 0 : v / diagonal[k]!));
    const next = dot(residual, scaled);
    for (let k = 0; k < n; k++) way[k] = scaled[k]! + (next / rest) * way[k]!;
    rest = next;
  }
  return phi;
}
