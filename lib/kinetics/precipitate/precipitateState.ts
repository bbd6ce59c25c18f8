import type { SizeClasses } from './sizeClasses';

/** Solute of a matrix, wt %. */
export interface Solute {
  readonly Mg: number;
  readonly Si: number;
  readonly Cu: number;
}

/** Particles by size class, the Mg left in the matrix, and how much of that is in clusters (calibrated set). */
export interface Population {
  readonly classes: SizeClasses;
  readonly mgWtPct: number;
  readonly clusterMgWtPct: number;
}

/**
 * Ties a state to the actual part: the particle strength is multiplied, the rest of the difference added.
 * See `anchorTo`.
 */
export interface Anchor {
  readonly particleScale: number;
  readonly offsetMPa: number;
}

/** Where a piece of metal stands: plain data, never changed in place. */
export interface PrecipitateState {
  /** Solute after solution treatment, wt %: what precipitates and matrix hold together. */
  readonly solute: Solute;
  readonly population: Population;
  readonly anchor: Anchor;
  /** What the first history started from: `yieldKeptFraction` and `partition` compare with it. */
  readonly start: {
    readonly yieldMPa: number;
    readonly volumeFraction: number;
    readonly particleMPa: number;
    readonly obstacleMPa: number;
  };
}
