import type { HowKnown } from '../../quantity';
import type { Basis } from '../weldedSection';

/** Metal within a distance of a weld and the shares of strength it keeps. Null distance: the weld's code extent. */
export interface SoftBand {
  readonly withinMm: number | null;
  readonly proofKept: number;
  readonly ultimateKept: number;
}

/** Strength on one basis, MPa. */
export interface BasisStrength {
  readonly on: Basis;
  readonly parentMPa: number;
  /** Of metal beside a weld that lies across, as printed. */
  readonly softMPa: number;
  readonly shearParentMPa: number;
  readonly shearSoftMPa: number;
  /** Divides the strength where a code's own factors are asked. */
  readonly codeFactor: number;
}

/** All that the checks of a section need to know of its metal. */
export interface SectionMetal {
  readonly strengths: readonly BasisStrength[];
  /** From the weld outward; metal beyond the last keeps all. */
  readonly bands: readonly SoftBand[];
  readonly weld: {
    readonly tensionMPa: number;
    readonly shearMPa: number;
    readonly codeFactor: number;
  } | null;
  /** 'von Mises': √(σ² + 3τ²); 'additive': σ/F + (τ/F_s)². */
  readonly combine: 'von Mises' | 'additive';
  readonly extentMm: number | null;
  readonly bucklingClass: 'A' | 'B';
  readonly holdsAfterDays: number | null;
  readonly known: HowKnown;
  readonly fromMemory: readonly string[];
}
