import { TemperbookError } from '../../quantity';
import type { Point } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import type { SectionShape } from '../shape/sectionShape';
import { partPolygon } from '../shape/wall';
import { type FilletLine, roundFillet } from './filletGroup';

/**
 * Lines of a fillet around the end of a member: outside of a closed section, both faces of the walls of an open one.
 * @throws TemperbookError for an outline, whose welded edges are not said.
 */
export function perimeterFillets(shape: SectionShape, body: SectionBody, throatMm: number): FilletLine[] {
  if (shape.kind === 'round tube') return roundFillet(shape.outsideMm, throatMm);
  if (body.walls.length === 0)
    throw new TemperbookError('Where the fillet runs around an outline is not said', {
      remedy: 'Give its lines to filletGroup, or describe the section as plates',
    });
  const lines = (points: readonly Point[]): FilletLine[] =>
    points.slice(1).map((toMm, k) => ({ fromMm: points[k]!, toMm, throatMm }));
  return body.walls.flatMap((wall) => {
    const ring = partPolygon(wall, [0, 1]);
    const half = ring.length / 2;
    const [right, left] = [ring.slice(0, half), ring.slice(half)];
    if (body.enclosedMm2 === undefined) return [...lines(right), ...lines(left)];
    // The face farther from the middle of the section is the outside one.
    const away = (points: readonly Point[]): number =>
      points.reduce((sum, [x, y]) => sum + Math.hypot(x, y), 0) / points.length;
    return lines(away(right) > away(left) ? right : left);
  });
}
