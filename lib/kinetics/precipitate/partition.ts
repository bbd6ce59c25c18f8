import type { Moment } from './evolve';
import type { PrecipitateState } from './precipitateState';

/** What became of the hardening solute of the starting temper; the three shares add up to 1. */
export interface Partition {
  /** Still in particles that harden as they did at the start. */
  readonly surviving: number;
  /** Still in particles, but too few and too large to harden: only a new solution treatment brings it back. */
  readonly coarsened: number;
  /** Back in the matrix: natural and artificial ageing bring it back. */
  readonly dissolved: number;
}

/**
 * Splits what the particles of the start held, by volume fraction f and particle strength σ:
 *   dissolved = 1 − f/f₀;  surviving = f/f₀ · e with e = (σ/√f)/(σ₀/√f₀) ≤ 1;  coarsened = f/f₀ · (1 − e).
 * The strength of given particles goes with √f, so e is how well a unit of precipitate still hardens. All
 * survives where there was nothing to lose (a start without particles), or more has formed since.
 */
export function partition({ start }: PrecipitateState, now: Moment): Partition {
  if (start.volumeFraction === 0) return { surviving: 1, coarsened: 0, dissolved: 0 };
  const left = Math.min(1, now.volumeFraction / start.volumeFraction);
  const effect =
    now.volumeFraction > 0
      ? now.particleMPa /
        Math.sqrt(now.volumeFraction) /
        (start.particleMPa / Math.sqrt(start.volumeFraction))
      : 0;
  const surviving = left * Math.min(1, effect);
  return { surviving, coarsened: left - surviving, dissolved: 1 - left };
}
