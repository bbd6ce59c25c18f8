import { type Point, polygonMoments } from './moments';
import { chordLength, leftOf } from './polygon';
import { bodyPolygons, type SectionBody } from './sectionBody';

/**
 * Largest shear stress per newton of transverse force through the shear centre, 1/mm²: Q/(I b) at the centroid, Q the
 * first moment of the metal beyond it and b the metal cut there. Full metal, no soft zone. Source: elementary beam
 * theory. A flat bar has 1.5/A, a thin round tube 2/A.
 */
export function shearStressPerN(body: SectionBody, direction: 'x' | 'y'): number {
  const { area, x, y, xx, yy } = body.moments;
  const centre = direction === 'y' ? y / area : x / area;
  const inertia = direction === 'y' ? yy - (y * y) / area : xx - (x * x) / area;
  const polygons = bodyPolygons(body);
  const [a, b]: [Point, Point] =
    direction === 'y'
      ? [
          [0, centre],
          [1, centre],
        ]
      : [
          [centre, 1],
          [centre, 0],
        ];
  let beyond = 0;
  for (const polygon of polygons) {
    const part = leftOf(polygon, a, b);
    if (part.length < 3) continue;
    const m = polygonMoments(part);
    beyond += (direction === 'y' ? m.y : m.x) - centre * m.area;
  }
  // Just beside the centroid: an edge of a wall may lie on it.
  const nudge = 1e-6 * Math.sqrt(inertia / area);
  const cut = [centre - nudge, centre + nudge].map((at) =>
    polygons.reduce((sum, polygon) => {
      const length = chordLength(polygon, direction, at);
      return sum + (polygonMoments(polygon).area < 0 ? -length : length);
    }, 0),
  );
  return Math.abs(beyond) / (inertia * Math.min(...cut.filter((length) => length > 0)));
}
