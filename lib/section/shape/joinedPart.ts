import { addMoments, type Moments, NOTHING, type Point } from './moments';
import type { SectionBody } from './sectionBody';
import { lengthOf, nearestOn, partMoments, placeOn, type Wall } from './wall';

/** Rounding of a drawing, mm. */
const SLACK_MM = 0.5;

/**
 * Metal that only the welds near a place hold to the rest of a section: the plates that come off if the joint opens
 * there. Null where nothing comes off (a closed section, which shares the shear between its joints) or where the weld
 * joins no two plates.
 */
export function joinedPart(
  { walls }: SectionBody,
  on: readonly Wall[],
  at: Point,
): { readonly moments: Moments; readonly walls: readonly Wall[] } | null {
  if (on.length < 2) return null;
  const joins = (a: Wall, b: Wall): boolean =>
    a !== b && touch(a, b) && !(on.includes(a) && on.includes(b) && meetAt(a, b, at));
  const part = new Set<Wall>([on[0]!]);
  for (const wall of part) for (const other of walls) if (joins(wall, other)) part.add(other);
  if (on.every((wall) => part.has(wall))) return null;
  const moments = [...part].reduce((sum, w) => addMoments(sum, partMoments(w, [0, 1])), NOTHING);
  return { moments, walls: [...part] };
}

const reach = (a: Wall, b: Wall): number => (a.thicknessMm + b.thicknessMm) / 2 + SLACK_MM;

/** Whether an end or a mid-line of one meets the other. */
function touch(a: Wall, b: Wall): boolean {
  const ends = (wall: Wall): Point[] => [placeOn(wall, 0).at, placeOn(wall, 1).at];
  return (
    ends(a).some((p) => nearestOn(b, p).distanceMm <= reach(a, b)) ||
    ends(b).some((p) => nearestOn(a, p).distanceMm <= reach(a, b))
  );
}

/** Whether two walls meet at this place and not at another end of a wall. */
const meetAt = (a: Wall, b: Wall, at: Point): boolean =>
  [a, b].every((wall) => nearestOn(wall, at).distanceMm <= reach(a, b)) &&
  Math.min(lengthOf(a), lengthOf(b)) > 0;
