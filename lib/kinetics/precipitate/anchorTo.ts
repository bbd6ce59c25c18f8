import type { Anchor } from './precipitateState';

/** How far up particle strength may be scaled before the rest of a difference is added instead. */
const MOST_SCALE = 1.33;

/** No change: the model as it is. */
export const unanchored: Anchor = { particleScale: 1, offsetMPa: 0 };

/**
 * The anchor that makes the model start at a yield measured on the part. Parts of one temper differ mostly in
 * how much hardening solute they hold and how finely they are cast, which scales the particle strength, so
 * that is scaled first: later losses are then the same share of it. Beyond ×1.33 the scale would only hide
 * that the part is not in the temper named, and the rest is added as a constant. Downwards it scales on to nothing: a
 * constant taken off would stay off when the particles are gone, and push the yield below that of bare metal.
 */
export function anchorTo(measuredYieldMPa: number, modelYieldMPa: number, particleMPa: number): Anchor {
  const difference = measuredYieldMPa - modelYieldMPa;
  if (particleMPa <= 0) return { particleScale: 1, offsetMPa: difference };
  const particleScale = Math.min(MOST_SCALE, Math.max(0, 1 + difference / particleMPa));
  return { particleScale, offsetMPa: difference - (particleScale - 1) * particleMPa };
}
