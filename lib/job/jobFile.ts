import type { Instrument, ProbeRole } from '../decision';
import type { PlatePlan } from '../heatflow';
import type { ChartOptions, Fittings } from '../heattreat';
import type { Decision, JobFieldName } from '../record';
import type { Attachment, ToleranceClass } from '../thermocouple';
import type { Reading } from '../verify';
import type { FileOf } from './fileToRead';
import type { SaidCheck } from './heats/checkOfProbes';
import type { SaidHeat } from './heats/saidHeat';

/** A metal in one word ('A356-T6'), or with what is known of it. */
export type SaidMetal =
  | string
  | {
      readonly alloy: string;
      readonly temper?: string;
      /** Yield measured before the heat on metal of this part, MPa. */
      readonly measuredYieldMPa?: number;
      /** Vickers hardness likewise; wrought metal only. */
      readonly measuredHardnessHV?: number;
      /** The paper that says so. */
      readonly certificate?: string;
    };

/** What is said of one probe. */
export interface SaidProbe {
  readonly role?: Exclude<ProbeRole, 'not said'>;
  readonly attachment?: Attachment;
  readonly metal?: SaidMetal;
  readonly instrument?: Instrument;
  /** Its distance from the weld, mm, from where `placeFrom` says. */
  readonly placeMm?: number;
  readonly placeFrom?: 'centre line' | 'toe';
}

/** How it was measured, where the probes do not differ. */
export interface SaidMeasuring extends Pick<SaidProbe, 'attachment' | 'instrument'> {
  readonly thermocouple?: ToleranceClass;
  /** Air round the part, °C or '70F'. */
  readonly ambientC?: number | string;
  readonly isOven?: boolean;
  readonly areMeans?: boolean;
}

/** What the shop allows. */
export interface SaidLimits {
  /** °C, or a text with its unit: '440F'. */
  readonly limitC?: number | string;
  /** Yield loss the part can live with, 0 to 1. */
  readonly allowanceFraction?: number;
}

/** The furnace chart of a lot: its path, or with what is known of it. */
export type SaidChart = FileOf<{
  /** A name, or the path of your own (.json). */
  readonly schedule?: string;
  readonly thicknessMm?: number;
  /** What a sensor sits in, where neither its name nor its trace tells. */
  readonly sensors?: NonNullable<ChartOptions['sensors']>;
  /** The charts that follow it, of the same load: each its path, or with the hours since the chart before ended. */
  readonly next?: readonly FileOf<{ readonly pauseH?: number }>[];
}>;

/** What is known of the lot the metal came from. */
export interface SaidLot {
  readonly name?: string;
  readonly chart?: SaidChart;
  /** What coupons said of it: the files that `temperbook lot` writes. */
  readonly cards?: readonly string[];
}

/** A heat before this one that was judged and recorded. */
export interface SaidEarlier {
  readonly record: string;
  /** Probe of this log → the probe of that record that sat at its place, where the names differ. */
  readonly probes?: Readonly<Record<string, string>>;
}

/** What is known of the part and its furnace, for the question whether it can be saved. */
export interface SaidRecovery {
  /** Schedules of the casting's temper and of the metal joined to it, by name or as the path of your own (.json). */
  readonly schedule?: string;
  readonly wroughtSchedule?: string;
  /** Solution treatments so far, the foundry's included. */
  readonly solutionTreatments?: number;
  readonly thinnestWallMm?: number;
  readonly longestMm?: number;
  readonly holdsPressure?: boolean;
  readonly fittings?: { readonly [Name in keyof Fittings]?: boolean };
  /** Uniformity of the furnace, ± K. */
  readonly uniformityK?: number;
}

/** What a job file says, as it stands there. */
export interface JobFile {
  readonly $schema?: string;
  /** The shop's defaults. */
  readonly defaults?: string;
  /** Number of the job. */
  readonly job?: string;
  readonly part?: { readonly number?: string; readonly name?: string; readonly serial?: string };
  /** Absent where nobody logged: then `heats` say what the part saw, or the job is about the chart of its lot alone. */
  readonly log?: FileOf;
  readonly metal?: SaidMetal;
  readonly measuring?: SaidMeasuring;
  readonly probes?: Readonly<Record<string, SaidProbe>>;
  readonly limits?: SaidLimits;
  readonly lot?: SaidLot;
  readonly plan?: string | PlatePlan;
  readonly earlier?: readonly SaidEarlier[];
  /** Heats that nobody logged, in their order: before the log, or all there is where there is none. */
  readonly heats?: readonly SaidHeat[];
  /** What a check of the probes before the weld found: its steps, or the path of a file that says them. */
  readonly check?: string | SaidCheck;
  readonly readings?: readonly Reading[];
  /** For the ways to go on with the part; the filler stands on the sheet. */
  readonly recovery?: SaidRecovery;
  readonly decision?: Decision;
  /** Who signs, by role: a name, or '' for a line to be signed. */
  readonly people?: Readonly<Record<string, string>>;
  /** Other lines of the record. */
  readonly sheet?: Readonly<Partial<Record<JobFieldName, string | number>>>;
}

/** What a shop says once for all its jobs. */
export interface ShopDefaults {
  readonly $schema?: string;
  readonly metal?: SaidMetal;
  readonly measuring?: SaidMeasuring;
  readonly limits?: SaidLimits;
  /** By a word in the probe's name, the first that fits: { "named": "tube", "metal": "6061-T6" }. */
  readonly probes?: readonly ({ readonly named: string } & Omit<SaidProbe, 'placeMm' | 'placeFrom'>)[];
}
