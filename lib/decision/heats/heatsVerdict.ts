import type { Exposure, Heat, TemperatureSign } from '../../exposure';
import type { OvenOptions } from '../../heatflow';
import type { ThermalHistory } from '../../history';
import type { ThermalLog } from '../../log';
import type { Judged } from '../../quantity';
import type { StrengthAfter, VerdictWord } from '../../strength';
import type { JudgeOptions } from '../judgeOptions';
import type { NotJudged } from '../verdict';
import type { HeatsLeft } from './heatsLeft';
import type { ToldHeat } from './toldHeat';

/** Heats in words, the log of a weld, or what another door made: in the order in which the part saw them. */
export type HeatStep = string | Heat | ToldHeat | ThermalLog | Exposure | ThermalHistory;

/** What `judgeHeats` needs to know: the metal, and what is known of the oven and of the part in it. */
export interface HeatsOptions extends JudgeOptions, OvenOptions {
  /**
   * Sticks that melted or not, and readings by hand, of the last heat (or of the log where it is the last); those of another
   * heat stand with it (`ToldHeat`).
   */
  readonly seen?: readonly TemperatureSign[];
  /** Whether to count how many more such heats are left; default true. */
  readonly countLeft?: boolean;
}

/** What all heats together did to one place of the part. */
export interface HeatedPlace {
  /** The probe of the log, or "the part". */
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  readonly word: VerdictWord;
  readonly sentence: string;
  readonly yieldKeptFraction: Judged;
  readonly yieldMPa: Judged;
  /** Ultimate strength now, MPa; absent where no source carries it. */
  readonly ultimateMPa?: Judged;
  /** Over-aged or dissolved, in a sentence; empty where nothing was lost. */
  readonly lost: readonly string[];
  readonly chanceKept: number | null;
  readonly settle: readonly string[];
  /** Every heat, in order. */
  readonly exposures: readonly Exposure[];
  readonly strength: StrengthAfter;
}

/** The answer to heats told in words. */
export interface HeatsVerdict {
  readonly word: VerdictWord;
  /** Chance that every place stays within the allowance; null where a log is blind. */
  readonly chanceKept: number | null;
  readonly allowanceFraction: number;
  readonly sentence: string;
  readonly places: readonly HeatedPlace[];
  readonly notJudged: readonly NotJudged[];
  /** How many more heats like the last one in words; absent without one. */
  readonly left?: HeatsLeft;
  /** What nobody said, as questions whose answers narrow the verdict. */
  readonly asks: readonly string[];
  readonly because: readonly string[];
}
