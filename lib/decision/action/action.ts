import type { PartState, Permission, WayKind } from '../../heattreat';
import type { Judged } from '../../quantity';
import type { VerdictWord } from '../../strength';
import type { MeasuringPlan } from '../../verify';

/** What follows from a verdict, for the part as a whole. */
export interface PartAction {
  /** kept: use it; uncertain: measure first; lost: do not use it as it is. */
  readonly word: VerdictWord;
  /** The first line of terminal and page. */
  readonly headline: string;
  /** The place that decides: the worst of those held against the allowance. */
  readonly place: string;
  /** Chance that every place held against the allowance stays within it; null where heat may be missing. */
  readonly chance: number | null;
  readonly reason: string;
  /** Soft zones of wrought metal that codes reckon with: no loss of the part where its design does too. */
  readonly asWelded: readonly AsWelded[];
  /** What measuring at `place` is decided by, fixed before anyone measures; empty where nothing needs measuring. */
  readonly plans: readonly MeasuringPlan[];
  /** What to do now, in the order to do it. */
  readonly now: readonly string[];
  /** Ways to go on, worked out for `place`; empty where the part may be used, or where nobody asked. */
  readonly ways: readonly WayOn[];
}

/** A place whose softening is that of any weld in its metal. */
export interface AsWelded {
  readonly name: string;
  /** Proof stress a code lets a design count on beside a TIG weld, MPa. */
  readonly proofMPa: number;
  readonly sentence: string;
}

/** One way to go on, what it leaves, and what stands against it. */
export interface WayOn {
  readonly kind: WayKind;
  readonly name: string;
  /** Null where no model reaches. */
  readonly yieldKeptFraction: Judged | null;
  readonly ultimateKeptFraction: Judged | null;
  /** Chance that the place then keeps enough; null where heat may be missing or no model reaches. */
  readonly chanceKept: number | null;
  readonly timeS: number;
  readonly permission: Permission;
  readonly forbiddenBy: readonly string[];
  readonly askFirst: readonly string[];
  readonly remark: string;
}

/** What is known of the part beyond its log; what is left out counts as not known. */
export type PartKnown = Partial<
  Pick<
    PartState,
    | 'filler'
    | 'solutionTreatments'
    | 'thinnestWallMm'
    | 'longestMm'
    | 'holdsPressure'
    | 'fittings'
    | 'uniformityK'
  >
>;

/** What `PartKnown` may say. */
export const PART_KNOWN = [
  'filler',
  'solutionTreatments',
  'thinnestWallMm',
  'longestMm',
  'holdsPressure',
  'fittings',
  'uniformityK',
] as const satisfies readonly (keyof PartKnown)[];
