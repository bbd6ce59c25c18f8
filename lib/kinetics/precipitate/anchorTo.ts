import { requireNumber } from '../../quantity';
import type { Anchor } from './precipitateState';

/** How far particle strength may be scaled before the rest of a difference is added instead. */
const LEAST_SCALE = 0.75;
const MOST_SCALE = 1.33;

/** No change: the model as it is. */
export const unanchored: Anchor = { particleScale: 1, offsetMPa: 0 };

/**
 * The anchor that makes the model start at a yield measured on the part. Parts of one temper differ mostly in
 * how much hardening solute they hold and how finely they are cast, which scales the particle strength, so
 * that is scaled first: later losses are then the same share of it. Beyond ×0.75…1.33 the scale would only hide
 * that the part is not in the temper named; the rest is added as a constant.
 * @throws TemperbookError on a yield outside 10–700 MPa.
 */
export function anchorTo(measuredYieldMPa: number, modelYieldMPa: number, particleMPa: number): Anchor {
  const measured = requireNumber(measuredYieldMPa, 'The measured yield, MPa', { low: 10, high: 700 });
  const difference = measured - modelYieldMPa;
  if (particleMPa <= 0) return { particleScale: 1, offsetMPa: difference };
  const particleScale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, 1 + difference / particleMPa));
  return { particleScale, offsetMPa: difference - (particleScale - 1) * particleMPa };
}
