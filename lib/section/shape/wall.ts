import { type Moments, movedMoments, type Point } from './moments';

/** A piece of wall by its mid-line: straight from one point to another, or an arc of a circle, counter-clockwise. */
export type Wall = StraightWall | ArcWall;

/** A straight piece of wall, mm. */
export interface StraightWall {
  readonly kind: 'straight';
  readonly from: Point;
  readonly to: Point;
  readonly thicknessMm: number;
  /** Which ends are free edges, joined to nothing. */
  readonly free: { readonly from: boolean; readonly to: boolean };
  readonly name: string;
}

/** A bent piece of wall: an arc of a circle, mm and rad. */
export interface ArcWall {
  readonly kind: 'arc';
  readonly center: Point;
  readonly radiusMm: number;
  readonly fromRad: number;
  readonly toRad: number;
  readonly thicknessMm: number;
  readonly name: string;
}

/** A part of a wall as shares of its length, 0 to 1. */
export type WallPart = readonly [from: number, to: number];

/** Length along the mid-line, mm. */
export const lengthOf = (wall: Wall): number =>
  wall.kind === 'straight'
    ? Math.hypot(wall.to[0] - wall.from[0], wall.to[1] - wall.from[1])
    : wall.radiusMm * (wall.toRad - wall.fromRad);

/** Point of the mid-line at a share of its length, and the direction along it. */
export function placeOn(wall: Wall, share: number): { readonly at: Point; readonly along: Point } {
  if (wall.kind === 'straight') {
    const [dx, dy] = [wall.to[0] - wall.from[0], wall.to[1] - wall.from[1]];
    const length = Math.hypot(dx, dy);
    return {
      at: [wall.from[0] + share * dx, wall.from[1] + share * dy],
      along: [dx / length, dy / length],
    };
  }
  const angle = wall.fromRad + share * (wall.toRad - wall.fromRad);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return {
    at: [wall.center[0] + wall.radiusMm * cos, wall.center[1] + wall.radiusMm * sin],
    along: [-sin, cos],
  };
}

/** Integrals over a part of a wall with its thickness, exact for both kinds. */
export function partMoments(wall: Wall, [from, to]: WallPart): Moments {
  const t = wall.thicknessMm;
  if (wall.kind === 'straight') {
    const {
      at: [cx, cy],
      along: [dx, dy],
    } = placeOn(wall, (from + to) / 2);
    const length = (to - from) * lengthOf(wall);
    const area = length * t;
    const along = (t * length ** 3) / 12;
    const across = (length * t ** 3) / 12;
    return {
      area,
      x: area * cx,
      y: area * cy,
      xx: area * cx * cx + along * dx * dx + across * dy * dy,
      yy: area * cy * cy + along * dy * dy + across * dx * dx,
      xy: area * cx * cy + (along - across) * dx * dy,
    };
  }
  const span = wall.toRad - wall.fromRad;
  const [a, b] = [wall.fromRad + from * span, wall.fromRad + to * span];
  const [inner, outer] = [wall.radiusMm - t / 2, wall.radiusMm + t / 2];
  const third = (outer ** 3 - inner ** 3) / 3;
  const fourth = (outer ** 4 - inner ** 4) / 4;
  const wave = (Math.sin(2 * b) - Math.sin(2 * a)) / 4;
  const about: Moments = {
    area: ((outer ** 2 - inner ** 2) * (b - a)) / 2,
    x: third * (Math.sin(b) - Math.sin(a)),
    y: third * (Math.cos(a) - Math.cos(b)),
    xx: fourth * ((b - a) / 2 + wave),
    yy: fourth * ((b - a) / 2 - wave),
    xy: (fourth * (Math.sin(b) ** 2 - Math.sin(a) ** 2)) / 2,
  };
  return movedMoments(about, wall.center);
}

/** The wall's part as a polygon, counter-clockwise; arcs in chords of at most 4°. */
export function partPolygon(wall: Wall, [from, to]: WallPart): Point[] {
  const steps =
    wall.kind === 'straight'
      ? 1
      : Math.max(1, Math.ceil(((to - from) * (wall.toRad - wall.fromRad)) / (Math.PI / 45)));
  const side = (offset: number): Point[] =>
    Array.from({ length: steps + 1 }, (_, k) => {
      const {
        at: [x, y],
        along: [dx, dy],
      } = placeOn(wall, from + ((to - from) * k) / steps);
      return [x + offset * dy, y - offset * dx];
    });
  // Right of the direction first, then back along the left: counter-clockwise.
  return [...side(wall.thicknessMm / 2), ...side(-wall.thicknessMm / 2).reverse()];
}

/** Nearest place of a wall's mid-line to a point. */
export function nearestOn(
  wall: Wall,
  [px, py]: Point,
): { readonly share: number; readonly distanceMm: number } {
  const share =
    wall.kind === 'straight'
      ? ((px - wall.from[0]) * (wall.to[0] - wall.from[0]) +
          (py - wall.from[1]) * (wall.to[1] - wall.from[1])) /
        lengthOf(wall) ** 2
      : shareOfAngle(wall, Math.atan2(py - wall.center[1], px - wall.center[0]));
  const clamped = Math.min(1, Math.max(0, share));
  const [x, y] = placeOn(wall, clamped).at;
  return { share: clamped, distanceMm: Math.hypot(px - x, py - y) };
}

/** Stretches of a wall's mid-line within a distance of a point. */
export function partsNear(wall: Wall, [px, py]: Point, distanceMm: number): WallPart[] {
  if (wall.kind === 'straight') {
    const length = lengthOf(wall);
    const [ux, uy] = [(wall.to[0] - wall.from[0]) / length, (wall.to[1] - wall.from[1]) / length];
    const [rx, ry] = [px - wall.from[0], py - wall.from[1]];
    const off = rx * uy - ry * ux;
    if (Math.abs(off) > distanceMm) return [];
    const half = Math.sqrt(distanceMm ** 2 - off ** 2);
    const along = rx * ux + ry * uy;
    return clip([(along - half) / length, (along + half) / length]);
  }
  const [rx, ry] = [px - wall.center[0], py - wall.center[1]];
  const away = Math.hypot(rx, ry);
  const r = wall.radiusMm;
  // |P − arc point|² = r² + a² − 2 r a cos(angle between)
  const cos =
    away === 0 ? (r <= distanceMm ? -1 : 2) : (r * r + away * away - distanceMm ** 2) / (2 * r * away);
  if (cos > 1) return [];
  if (cos <= -1) return [[0, 1]];
  const half = Math.acos(cos);
  const middle = Math.atan2(ry, rx);
  const span = wall.toRad - wall.fromRad;
  return [-1, 0, 1, 2].flatMap((turn) => {
    const at = middle + turn * 2 * Math.PI - wall.fromRad;
    return clip([(at - half) / span, (at + half) / span]);
  });
}

/** The union of parts, in order and apart. */
export function joinParts(parts: readonly WallPart[]): WallPart[] {
  const joined: [number, number][] = [];
  for (const [from, to] of [...parts].sort((a, b) => a[0] - b[0])) {
    const last = joined[joined.length - 1];
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else joined.push([from, to]);
  }
  return joined;
}

function clip([from, to]: WallPart): WallPart[] {
  const [low, high] = [Math.max(0, from), Math.min(1, to)];
  return low < high ? [[low, high]] : [];
}

function shareOfAngle({ fromRad, toRad }: ArcWall, angle: number): number {
  const span = toRad - fromRad;
  const turn = 2 * Math.PI;
  const ahead = (((angle - fromRad) % turn) + turn) % turn;
  // Off the arc: whichever end is nearer.
  if (ahead <= span) return ahead / span;
  return ahead - span < turn - ahead ? 1 : 0;
}
