import type { BlindTime, Exposure, Pass } from '../exposure';
import type { OpenReading } from '../log';
import type { HowKnown, Judged } from '../quantity';
import type { Assumption, Contribution, LotWeights, StrengthTrack, VerdictWord } from '../strength';
import type { Reading } from '../verify';
import type { PartAction } from './action/action';

/** Crossing of one temperature limit. */
export interface LimitCheck {
  readonly name: string;
  readonly limitC: number;
  readonly known: HowKnown;
  readonly crossed: boolean;
  /** Time above the limit, s: as read, and the 5 and 95 % lines of what the metal may have seen. */
  readonly timeAboveS: Judged;
  readonly meaning: string;
}

/** What exposure is left before the allowance is used up. */
export interface ExposureBudget {
  /** Time left at the shop limit, s; `low` is what one may count on, 0 when used up. */
  readonly timeAtLimitS: Judged;
  readonly sentence: string;
}

/** What the log says about the metal under one probe. */
export interface ChannelVerdict {
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  /** Yield measured before the heat, MPa; absent where nothing was. */
  readonly measuredYieldMPa?: number;
  readonly verdict: VerdictWord;
  /** One sentence a welder can act on. */
  readonly sentence: string;
  /** Yield now over yield before welding: median, 5 and 95 %. Of the recorded part where the record is blind. */
  readonly yieldKeptFraction: Judged;
  /** Ultimate strength likewise; null where no source carries it. */
  readonly ultimateKeptFraction: Judged | null;
  /** The middle metal on the record exactly as it was read. */
  readonly asReadFraction: number;
  /** Chance that the loss stays within the allowance; null where part of the record is blind. */
  readonly chanceKept: number | null;
  readonly yieldMPa: Judged;
  readonly peakC: Judged;
  readonly limits: readonly LimitCheck[];
  readonly passes: readonly Pass[];
  /** Share of the whole exposure that fell into each pass, same order as `passes`. */
  readonly passShare: readonly number[];
  readonly coveredS: number;
  readonly uncoveredS: number;
  /** Time of which nothing bounds how hot the metal got. */
  readonly blind: readonly BlindTime[];
  /** What each doubt does to the answer by itself, worst first. */
  readonly doubts: readonly Contribution[];
  readonly budget: ExposureBudget;
  /** What would settle an uncertain verdict (hardness here, conductivity there); empty when settled. */
  readonly settle: readonly string[];
  readonly track: StrengthTrack;
  /** What the metal saw in this heat, and what its record leaves open. */
  readonly exposure: Exposure;
  /** The heats before it that count. */
  readonly earlier: readonly Exposure[];
}

/** A channel that was not judged, and why. */
export interface NotJudged {
  readonly name: string;
  /** A place on the part of which nothing is known: while there is one, the part as a whole is not cleared. */
  readonly isOnPart: boolean;
  readonly because: string;
}

/** Bench readings and what they did. */
export interface WeighedReadings {
  readonly given: readonly Reading[];
  /** How many equally likely draws they leave. */
  readonly effectiveDraws: number;
  /** Readings that log and metal do not explain, in sentences. */
  readonly contradicting: readonly string[];
  /** What each says, in sentences. */
  readonly because: readonly string[];
}

/** The judgement of a whole log. */
export interface Verdict {
  readonly alloy: string;
  readonly temper: string;
  /** Yield loss the shop accepts, fraction. */
  readonly allowanceFraction: number;
  /** The worst of the channels, by the chance of the whole part. */
  readonly verdict: VerdictWord;
  /** Chance that every judged place stays within the allowance; null where part of a record is blind. */
  readonly chanceKept: number | null;
  readonly sentence: string;
  /** What to do with the part. */
  readonly action: PartAction;
  readonly channels: readonly ChannelVerdict[];
  readonly notJudged: readonly NotJudged[];
  /** Other ways in which the file may be meant: while there is one, nothing is cleared. */
  readonly openReadings: readonly OpenReading[];
  /** Channels of which nobody said how the probe is fixed: they are taken for the loosest a probe may be. */
  readonly fixingNotStated: readonly string[];
  /** Bench readings that weighed the draws; absent without any. */
  readonly readings?: WeighedReadings;
  /** What is known of the lots of metal in the part; absent where nothing is. */
  readonly lots?: readonly LotWeights[];
  readonly assumptions: readonly Assumption[];
  /** What the numbers rest on, each by its hash: the members, and every card (`madeWith`). */
  readonly madeWith: Readonly<Record<string, string>>;
  readonly cautions: readonly string[];
}
