/** Heats, or a weld, on which a saying is tried. */
export interface TriedHeat {
  readonly alloy: string;
  readonly heats?: string;
  /** The temperature is the metal's to the degree. */
  readonly exact?: boolean;
  readonly wallMm?: number;
  /** Other heats whose yield it is to equal. */
  readonly like?: string;
  readonly weld?: { readonly peakC: number; readonly coolingS: number };
  /** A rest or an age after the weld. */
  readonly after?: string;
}

/** What a saying claims: that the temper is kept, or lost, or so much of the yield left, or as strong as after other heats. */
export type Claim =
  | { readonly keeps: true }
  | { readonly loses: true }
  | { readonly keptFrom: number; readonly keptTo: number }
  | { readonly recoversFrom: number; readonly recoversTo: number }
  | { readonly sameAs: number };

/** A saying as data/models/sayings.json has it. */
export interface Saying {
  readonly id: string;
  readonly topic: string;
  readonly says: string;
  readonly sources: readonly { readonly kind: string; readonly year: number | null }[];
  readonly claim?: Claim;
  readonly triedOn?: readonly TriedHeat[];
  readonly near?: {
    readonly alloy: string;
    readonly fromC: number;
    readonly toC: number;
    readonly toS: number;
  };
  readonly condition?: string;
  readonly because?: string;
}
