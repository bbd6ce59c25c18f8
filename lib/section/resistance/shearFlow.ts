import { joinedPart } from '../shape/joinedPart';
import type { Point } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import type { PlacedWeld } from '../shape/softMetal';
import type { SectionWeld } from '../weldedSection';
import type { LoadCase } from './sectionLoad';

/** A joint between plates of one section, held by one or more fillets along the member. */
export interface PlateJoint {
  readonly atMm: Point;
  /** Sum of the throats that hold it, mm. */
  readonly throatsMm: number;
  /** Force per mm of length between the two parts. */
  readonly flowNPerMm: (load: Pick<LoadCase, 'shearXN' | 'shearYN'>) => number;
}

/**
 * Shear flow in the fillets that join plates of one section: q = V Q/I, Q the first moment of the part that comes off
 * without them, about the centroid of the whole; for any axes q = k_x(S_x − x_c A) + k_y(S_y − y_c A) with the field k
 * of a moment that grows by V each mm. Fillets that hold the same part share it by throat. Full metal: a soft strip
 * changes Q and I alike. Source: elementary beam theory (D. J. Jourawski).
 */
export function plateJoints(
  body: SectionBody,
  placed: readonly (PlacedWeld & { readonly weld: SectionWeld })[],
): PlateJoint[] {
  const { area, x, y, xx, yy, xy } = body.moments;
  const [xc, yc] = [x / area, y / area];
  const [ix, iy, ixy] = [yy - y * yc, xx - x * xc, xy - x * yc];
  const det = ix * iy - ixy * ixy;
  const joints = new Map<string, PlateJoint>();
  for (const { weld, points, on } of placed) {
    if (weld.lies !== 'along' || weld.joint !== 'fillet' || weld.throatMm === undefined) continue;
    const part = joinedPart(body, on, points[0]!);
    if (!part) continue;
    const { moments } = part;
    const [sx, sy] = [moments.x - xc * moments.area, moments.y - yc * moments.area];
    const flowNPerMm: PlateJoint['flowNPerMm'] = ({ shearXN, shearYN }) => {
      const kx = (shearXN * ix - shearYN * ixy) / det;
      const ky = (shearYN * iy - shearXN * ixy) / det;
      return Math.abs(kx * sx + ky * sy);
    };
    const name = on
      .map((wall) => body.walls.indexOf(wall))
      .sort()
      .join();
    const known = joints.get(name);
    joints.set(name, {
      atMm: points[0]!,
      throatsMm: weld.throatMm + (known?.throatsMm ?? 0),
      flowNPerMm,
    });
  }
  return [...joints.values()];
}
