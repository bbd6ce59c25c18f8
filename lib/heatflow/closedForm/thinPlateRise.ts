import { requireNumber } from '../../quantity';
import { requireThickness } from '../requireThickness';
import { scaledBesselK0 } from './scaledBesselK0';
import { requireOffSource, type WeldInPlate, weldInMm } from './weldInPlate';

/** A weld through the full thickness of a plate that carries heat sideways only. */
export interface ThinPlateWeld extends WeldInPlate {
  readonly thicknessMm: number;
  /** Heat loss per area of plate, both faces added, W/m² K; default none. Still air takes about 10 a face. */
  readonly lossWPerM2K?: number;
}

/** A point seen from the arc. */
export interface ThinPlatePoint {
  /** Along the weld, mm, positive ahead of the arc. */
  readonly alongMm: number;
  /** Across the weld, mm. */
  readonly acrossMm: number;
}

/**
 * Steady temperature rise around an arc moving over a thin plate, K (Rosenthal's line source):
 *
 * ΔT = q / (2π k d) · exp(−v x / 2α) · K₀(m r),  m² = (v / 2α)² + (h_top + h_bottom) / (k d)
 *
 * Limits of use: the thickness is heated through (relative plate thickness below 0.6; see
 * `relativePlateThickness`), edges are several times 2α/v away, properties are constant, the point is outside the
 * weld pool, and the weld is long enough to be steady. Small aluminium parts break the second condition within
 * one pass: use the plate solver for them.
 *
 * Source: D. Rosenthal, Trans. ASME 68 (1946) 849–866. Worked example: 1500 W at 5 mm/s on 4 mm of 6061
 * (167 W/m K, 2.4192 MJ/m³ K), 20 mm behind and 10 mm beside: 410.710 K.
 * @throws TemperbookError for travel below 0.01 mm/s, a point on the arc, or properties no metal has.
 */
export function thinPlateRise(weld: ThinPlateWeld & ThinPlatePoint): number {
  const { q, v, k, alpha } = weldInMm(weld);
  const d = requireThickness(weld.thicknessMm);
  const loss = requireNumber(weld.lossWPerM2K ?? 0, 'lossWPerM2K', { low: 0 }) / 1e6;
  const x = requireNumber(weld.alongMm, 'alongMm');
  const r = Math.hypot(x, requireNumber(weld.acrossMm, 'acrossMm'));
  requireOffSource(r);
  const s = v / (2 * alpha);
  const z = Math.hypot(s, Math.sqrt(loss / (k * d))) * r;
  // K₀ is taken scaled, its e^−z joined with the other exponential: neither alone survives far from the arc.
  return (q / (2 * Math.PI * k * d)) * Math.exp(-s * x - z) * scaledBesselK0(z);
}
