import type { Exposure } from '../../exposure';
import type { ThermalHistory } from '../../history';
import type { Schedule } from '../schedule/schedule';

/** What a place of the part is made of. */
export type Material = 'casting' | 'wrought' | 'weld metal';

/** A place whose strength matters. */
export interface PartPlace {
  readonly name: string;
  readonly material: Material;
  /** Alloy and temper before welding; weld metal goes by the filler. */
  readonly alloy?: string;
  readonly temper?: string;
  /** Hottest it became, °C; null where nobody knows. */
  readonly peakC: number | null;
  readonly thicknessMm?: number;
  /** What it saw, where there is a record: with alloy and temper, strength is worked out from it. */
  readonly exposure?: Exposure | ThermalHistory;
  /** Heats before it, in their order. */
  readonly earlier?: readonly (Exposure | ThermalHistory)[];
  /** Yield measured before all heat, MPa. */
  readonly measuredYieldMPa?: number;
}

/** Things on the part that a furnace or a quench spoils. `null`: nobody said. */
export interface Fittings {
  /** Threads cut to size. */
  readonly threads: boolean | null;
  /** Plating, anodising, paint or powder. */
  readonly coating: boolean | null;
  /** Pressed-in bushes, helical inserts, bearings, seals, adhesive. */
  readonly inserts: boolean | null;
  /** Faces or bores machined to size. */
  readonly machined: boolean | null;
}

/** A welded part after the heat. What is left out or null is not known, and never counts in its favour. */
export interface PartState {
  /** Schedule of the casting's temper, a name or a schedule; see `loadSchedule`. */
  readonly schedule: string | Schedule;
  /** Schedule of the wrought metal joined to it, if there is any. */
  readonly wroughtSchedule?: string | Schedule;
  readonly places: readonly PartPlace[];
  readonly filler?: string;
  /** Solution treatments so far, the foundry's included. */
  readonly solutionTreatments: number | null;
  readonly thinnestWallMm: number | null;
  /** Longest dimension, mm. */
  readonly longestMm: number | null;
  /** Does it hold pressure? */
  readonly holdsPressure: boolean | null;
  readonly fittings: Fittings;
  /** Uniformity of the furnace, ± K; default that of class 2 (SAE AMS 2750, from memory). */
  readonly uniformityK?: number;
}
