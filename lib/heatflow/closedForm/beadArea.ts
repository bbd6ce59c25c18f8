import { requireNumber } from '../../quantity';

/**
 * Heat to melt a cubic millimetre from room temperature, J/mm³: U = 3.33e-6 T², T the melting point in K.
 *
 * Rule of thumb for metals in general. Source: M. P. Groover, Fundamentals of Modern Manufacturing, fusion welding.
 * Worked example: 1700 K gives 9.62 J/mm³.
 */
export function meltingHeatJPerMm3(meltK: number): number {
  return 3.33e-6 * requireNumber(meltK, 'meltK', { low: 273, high: 4000 }) ** 2;
}

/**
 * Cross-section an arc can melt, mm²: A = f₁ f₂ P / (U v), f₁ the share of the arc power that enters the part, f₂
 * the share of that which melts rather than warms. For aluminium f₂ is small and uncertain: check against a
 * sectioned bead.
 *
 * Source: as `meltingHeatJPerMm3`. Worked example: 16 000 W, 0.8 and 0.3, 20 J/mm³, 4 mm/s: 48 mm².
 * @throws TemperbookError for zero travel or a share outside 0…1.
 */
export function beadAreaMm2(arc: BeadArc & { readonly arcPowerW: number }): number {
  return requireNumber(arc.arcPowerW, 'arcPowerW', { low: 0 }) / powerPerArea(arc);
}

/** Arc power that melts a cross-section, W; the same equation turned round. */
export function arcPowerForBeadW(arc: BeadArc & { readonly areaMm2: number }): number {
  return requireNumber(arc.areaMm2, 'areaMm2', { low: 0 }) * powerPerArea(arc);
}

/** How an arc melts metal. */
export interface BeadArc {
  readonly efficiency: number;
  readonly meltingShare: number;
  readonly meltingHeatJPerMm3: number;
  readonly travelMmPerS: number;
}

function powerPerArea(arc: BeadArc): number {
  const share = { low: Number.MIN_VALUE, high: 1 };
  return (
    (requireNumber(arc.meltingHeatJPerMm3, 'meltingHeatJPerMm3', { low: Number.MIN_VALUE }) *
      requireNumber(arc.travelMmPerS, 'travelMmPerS', { low: Number.MIN_VALUE })) /
    (requireNumber(arc.efficiency, 'efficiency', share) *
      requireNumber(arc.meltingShare, 'meltingShare', share))
  );
}
