import type { Pass } from '../exposure';
import type { RangeRemark } from '../kinetics';
import type { HowKnown, Judged } from '../quantity';
import type { Assumption, ModelLine } from '../strength';

/** `kept`: the loss stays within the allowance even in the worst case; `lost`: beyond it even in the best. */
export type VerdictWord = 'kept' | 'uncertain' | 'lost';

/** Crossing of one temperature limit. */
export interface LimitCheck {
  readonly name: string;
  readonly limitC: number;
  readonly known: HowKnown;
  readonly crossed: boolean;
  /** Time above the limit, s; `high` is for the high-side case of the record. */
  readonly timeAboveS: Judged;
  readonly meaning: string;
}

/** Strength kept along the history, for the figure; plain arrays of equal length. */
export interface StrengthTrack {
  readonly timeS: Float64Array;
  readonly nominal: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** What exposure is left before the allowance is used up. */
export interface ExposureBudget {
  /** Time left at the shop limit in the low case, s; 0 when used up. */
  readonly timeAtLimitS: Judged;
  readonly sentence: string;
}

/** What the log says about the metal under one probe. */
export interface ChannelVerdict {
  readonly name: string;
  readonly verdict: VerdictWord;
  /** One sentence a welder can act on. */
  readonly sentence: string;
  /** Yield now over yield before welding. */
  readonly yieldKeptFraction: Judged;
  readonly yieldMPa: Judged;
  readonly peakC: Judged;
  readonly limits: readonly LimitCheck[];
  readonly passes: readonly Pass[];
  /** Share of the whole exposure that fell into each pass, same order as `passes`. */
  readonly passShare: readonly number[];
  readonly coveredS: number;
  readonly uncoveredS: number;
  readonly models: readonly ModelLine[];
  readonly budget: ExposureBudget;
  /** What would settle an uncertain verdict (hardness here, conductivity there); empty when settled. */
  readonly settle: readonly string[];
  readonly track: StrengthTrack;
  readonly remarks: readonly RangeRemark[];
}

/** The judgement of a whole log. */
export interface Verdict {
  readonly alloy: string;
  readonly temper: string;
  /** Yield loss the shop accepts, fraction. */
  readonly allowanceFraction: number;
  /** The worst of the channels. */
  readonly verdict: VerdictWord;
  readonly sentence: string;
  readonly channels: readonly ChannelVerdict[];
  readonly assumptions: readonly Assumption[];
  readonly cautions: readonly string[];
}
