import type { SectionMetal } from '../metal/metalStrengths';
import { addMoments, type Moments } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import { type SofteningWeld, softMetal } from '../shape/softMetal';

/** A section with its soft metal counted as less of it. */
export interface Thinned {
  readonly moments: Moments;
  /** Least share of strength that metal of the section keeps. */
  readonly softest: number;
}

/**
 * The section with each band of softness thinned to the share of strength that it keeps, as 6.1.6 of EN 1999-1-1 takes
 * a softened zone: A = A₀ − Σ Aᵢ (1 − ρᵢ), and moments alike, in mm.
 * @param soften the welds whose metal within so many mm is soft; none beyond the last band.
 */
export function thinned(
  body: SectionBody,
  metal: SectionMetal,
  kept: 'proofKept' | 'ultimateKept',
  soften: (withinMm: number | null) => SofteningWeld[],
): Thinned {
  let moments = body.moments;
  let inner: Moments | null = null;
  let softest = 1;
  for (const band of metal.bands) {
    const welds = soften(band.withinMm);
    if (welds.length === 0) break;
    const within = softMetal(body, welds).moments;
    const ring = inner ? addMoments(within, inner, -1) : within;
    moments = addMoments(moments, ring, band[kept] - 1);
    if (ring.area > 1e-9) softest = Math.min(softest, band[kept]);
    inner = within;
  }
  return { moments, softest };
}
