import type { HowKnown } from '../../quantity';

/** The time a solution soak takes by the thickness of wrought metal in an air furnace; see `soakHours`. */
export const BY_THICKNESS = 'by thickness, wrought in air';

/** Where a number of a schedule is from. */
interface FromSource {
  readonly source: string;
  readonly known: HowKnown;
  readonly note?: string;
}

/** One hold of a heat treatment: a band of temperature, °C, and how long the coldest of the load stays in it, h. */
export interface HoldStage extends FromSource {
  readonly setC: number;
  readonly lowC: number;
  readonly highC: number;
  readonly leastH: number | typeof BY_THICKNESS;
  /** null where nothing limits it. */
  readonly mostH: number | null;
  /** Fastest heating allowed on the way there, K/h. */
  readonly maxHeatingKPerH?: number;
  /** Most the load sensors may lie apart while the hold is counted, K. */
  readonly maxSpreadK?: number;
}

/**
 * Longest quench delay for metal up to a thickness, s. Where published practice disagrees the two ends are kept:
 * a delay within the strictest is met, one beyond the loosest is not, between them nobody can tell.
 */
export interface DelayLimit {
  /** mm; null for all thicker metal. */
  readonly upToMm: number | null;
  readonly strictestS: number;
  readonly loosestS: number;
}

/** What a schedule asks of the quench. */
export interface QuenchStage extends FromSource {
  readonly delayLimits?: readonly DelayLimit[];
  /** A longer delay is let pass when all of the load is still hotter than this when it goes under, °C. */
  readonly orAboveC?: number;
  /** Slowest cooling from 400 to 200 °C allowed, K/s. */
  readonly leastRateKPerS?: number;
  /** Quench water when the load goes in, and at most afterwards, °C. */
  readonly waterC?: { readonly low?: number; readonly high: number; readonly endHigh?: number };
}

/** Time at room temperature between quench and ageing, or in place of it (T4); h and °C. */
export interface WaitStage extends FromSource {
  readonly lowC: number;
  readonly highC: number;
  readonly leastH: number;
  readonly mostH: number | null;
}

/** A heat treatment as a specification asks for it. Files in data/schedules hold these; a shop may add its own. */
export interface Schedule {
  /** "A356.0 T6 sand casting". */
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  readonly product: string;
  /** The document, and which edition of it, the numbers are from. */
  readonly edition: string;
  /** T5 and T51 age what the mould or the press left; all else begins with a solution treatment. */
  readonly startsFrom: 'any' | 'as cast' | 'press quenched';
  readonly solution?: HoldStage;
  readonly quench?: QuenchStage;
  readonly wait?: WaitStage;
  /** Artificial ageing, step by step; empty for T4. */
  readonly ages: readonly HoldStage[];
  /** Where the alloy begins to melt, °C; otherwise its card says. */
  readonly meltsFromC?: number;
  readonly note?: string;
}
