import type { ThermalHistory } from '../../history';
import type { Attachment, ToleranceClass } from '../../thermocouple';
import type { CheckedProbe } from '../probeCheck/probeCheck';

/** What is known of a probe and of how it was read. */
export interface Probe {
  /** Air round the part, °C. */
  readonly ambientC: number;
  /** Default: type K, class 2 of IEC 60584-1. */
  readonly thermocouple?: ToleranceClass;
  /** Default: 'not stated', the loosest fixing a probe on a part may have. */
  readonly attachment?: Attachment;
  /** The log of an oven or a furnace: heat comes and goes over minutes, so readings may be far apart. */
  readonly isOven?: boolean;
  /** A plan or a prediction read as a probe would read it: known between its points too, and whole. */
  readonly isPlan?: boolean;
  /** What a check before the weld found of this probe. */
  readonly check?: CheckedProbe;
  /** Readings that are means over their interval: a mean hides a peak. */
  readonly areMeans?: boolean;
  /** How long such a mean runs, s; default: the interval. */
  readonly meansOverS?: number;
}

/** A probe's record among the others of its log. */
export interface ProbeRecord {
  readonly history: ThermalHistory;
  readonly probe: Probe;
  /** The other probes of the log: they bound what this one may have missed. */
  readonly neighbours: readonly ThermalHistory[];
  /** Start and end of the log, s. */
  readonly spanS: readonly [number, number];
  /** The log is still being written: its last reading is now, and says nothing of what comes. */
  readonly isRunning?: boolean;
  /** Heats before this log are given by the user, so a warm start hides nothing. */
  readonly earlierIsKnown?: boolean;
  /** Probes of the air, judged by nobody: a probe that goes with them is not on the part. */
  readonly air?: readonly ThermalHistory[];
  /** Where the recording starts anew after an unknown time: the last time before and the first after, s. */
  readonly restarts?: readonly (readonly [fromS: number, toS: number])[];
  /** Why this record as a whole cannot clear metal, each a sentence that says what to do. */
  readonly cannotClear?: readonly string[];
  /** Where metal of this alloy begins to melt, °C: nothing above it is a temper. */
  readonly meltsFromC: number;
}

/** What a shop has when it does not say. */
export const USUAL_WIRE: ToleranceClass = { standard: 'IEC 60584-1', class: 2, type: 'K' };
