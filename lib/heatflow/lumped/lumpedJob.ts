/** A body of one temperature: casting, tube, fixture, a tank of air or water. */
export interface LumpedPart {
  readonly name: string;
  readonly massKg: number;
  /** Aluminium about 900, steel 480, air 1005, water 4186. */
  readonly specificHeatJPerKgK: number;
  readonly startC: number;
  /** Skin that loses heat to the surroundings; left out, it loses none. */
  readonly surface?: {
    readonly areaMm2: number;
    /** Convection; still air 5–10. */
    readonly filmWPerM2K: number;
    /** Radiation; default 0. */
    readonly emissivity?: number;
  };
}

/** Heat path between two parts. */
export interface LumpedLink {
  readonly between: readonly [string, string];
  /** W/K: contact conductance × area, or k A / L. */
  readonly conductanceWPerK: number;
}

/** A weld pass, a torch, a heater: constant power into one part for a time. */
export interface HeatPulse {
  readonly part: string;
  readonly fromS: number;
  readonly toS: number;
  readonly powerW: number;
}

/** A job for `lumpedNetwork`; plain data. */
export interface LumpedJob {
  readonly parts: readonly LumpedPart[];
  readonly links?: readonly LumpedLink[];
  readonly pulses?: readonly HeatPulse[];
  readonly surroundingsC: number;
  /** The run goes from 0 to here, s. */
  readonly untilS: number;
}
