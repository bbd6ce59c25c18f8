import { requireNumber } from '../../quantity';
import { requireOffSource, type WeldInPlate, weldInMm } from './weldInPlate';

/** A point under the surface, seen from the arc. */
export interface ThickPlatePoint {
  /** Along the weld, mm, positive ahead of the arc. */
  readonly alongMm: number;
  readonly acrossMm: number;
  /** Below the surface the arc runs on, mm. */
  readonly depthMm: number;
}

/**
 * Steady temperature rise around an arc moving over a body so thick that its far side stays cold, K (Rosenthal's
 * point source on a half space):
 *
 * ΔT = q / (2π k R) · exp(−v (x + R) / 2α)
 *
 * Limits of use: relative plate thickness above 0.9 (for aluminium at usual heat inputs: over about 20 mm), else
 * as for `thinPlateRise`.
 *
 * Source: D. Rosenthal, Trans. ASME 68 (1946) 849–866. Worked example: 3000 W at 5 mm/s on 6061, 20 mm behind and
 * 10 mm beside, at the surface: 117.384 K.
 * @throws TemperbookError for travel below 0.01 mm/s, a point on the arc, a negative depth, or properties no metal has.
 */
export function thickPlateRise(weld: WeldInPlate & ThickPlatePoint): number {
  const { q, v, k, alpha } = weldInMm(weld);
  const x = requireNumber(weld.alongMm, 'alongMm');
  const z = requireNumber(weld.depthMm, 'depthMm', { low: 0 });
  const r = Math.hypot(x, requireNumber(weld.acrossMm, 'acrossMm'), z);
  requireOffSource(r);
  return (q / (2 * Math.PI * k * r)) * Math.exp((-v * (x + r)) / (2 * alpha));
}
