import type { ThermalHistory } from '../../../history';

/** The cells a map is drawn on: row by row from the lower left, `values[row * columns + column]`. */
export interface PlateGrid {
  readonly columns: number;
  readonly rows: number;
  readonly cellMm: number;
  /** Lower left corner of the first cell, mm. */
  readonly originMm: readonly [xMm: number, yMm: number];
  /** 1 where there is metal; values of other cells are 0 and mean nothing. */
  readonly inPart: Uint8Array;
}

/** What one probe point saw. */
export interface PlateProbeResult {
  readonly name: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly history: ThermalHistory;
  readonly peakC: number;
  /** The point melted: its history is the pool's, not the metal's. */
  readonly molten: boolean;
  /** Plan view is doubtful here; see `PlateDoubt`. */
  readonly doubtful: boolean;
  /** How much hotter than told the metal there may have been, K (`PlateDoubt`). */
  readonly mayHideK: number;
}

/** When a pass ran and what it brought. */
export interface PlatePassResult {
  readonly name: string;
  readonly startS: number;
  readonly endS: number;
  /** Mean temperature of the whole part when the arc was struck, °C. */
  readonly bulkStartC: number;
  /** Mean temperature of the part by volume when the arc went out, °C: the hottest it is as a body in this pass. */
  readonly bodyC: number;
  /** Reading of the interpass probe when the arc was struck, °C; absent when the pass has no such limit. */
  readonly interpassC?: number;
  readonly heatJ: number;
}

/** Where the heat went. `imbalance` is the part that the account cannot find, as a fraction of the turnover. */
export interface PlateEnergy {
  readonly arcJ: number;
  readonly lostToAirJ: number;
  readonly lostToContactsJ: number;
  readonly storedJ: number;
  readonly imbalance: number;
}

/** How the time axis was walked. */
export interface PlateSteps {
  readonly count: number;
  readonly repeated: number;
  readonly shortestS: number;
  readonly longestS: number;
  /** Largest error one step was estimated to add in any cell, K; at most `toleranceK`. */
  readonly worstErrorK: number;
  readonly toleranceK: number;
  /** Iterations of the linear solver over all steps. */
  readonly iterations: number;
}

/**
 * Where the layers of a run, or its one layer, say too little. `differenceK` estimates by how much the metal may be
 * hotter than told: the face under the arc against the mean of its layer, the face away from a chill, the metal beside
 * a step in thickness (far beyond the step where one layer takes the thick side as even). A place is doubtful where
 * that exceeds 5 % of its rise.
 */
export interface PlateDoubt {
  readonly differenceK: Float64Array;
  readonly doubtful: Uint8Array;
}

/** Numerical error at one probe, measured by running the plan again. */
export interface PlateProbeError {
  readonly name: string;
  /** Largest change of its history when the steps are made four times more accurate, K. */
  readonly timeStepK: number;
  /** Change of its peak against a grid of twice the cell, K: the grid error is a third of it on smooth ground, up to all of it beside a stepped outline. Absent where the plan cannot be run on such cells; `notes` says why. */
  readonly gridK?: number;
}

/** What `solvePlate` returns. */
export interface PlateResult {
  readonly grid: PlateGrid;
  readonly probes: readonly PlateProbeResult[];
  readonly passes: readonly PlatePassResult[];
  readonly endS: number;
  readonly massKg: number;
  /** Layers the part was cut into through its thickness. */
  readonly layers: number;
  /** Highest temperature any layer reached at each place, °C. */
  readonly peakC: Float64Array;
  /** Mean through the thickness at the end, °C. */
  readonly finalC: Float64Array;
  /** Time the hottest layer of each place spent above the limits asked for, s. */
  readonly timeAbove: readonly { readonly limitC: number; readonly seconds: Float64Array }[];
  readonly energy: PlateEnergy;
  readonly steps: PlateSteps;
  readonly doubt: PlateDoubt;
  /** Only when `checkErrors` was asked for. */
  readonly errors?: readonly PlateProbeError[];
  /** What was assumed, flagged or left aside, in sentences. */
  readonly notes: readonly string[];
}

/** Options of `solvePlate`. */
export interface PlateOptions {
  /** Error a step may add in any cell, K; default 1. */
  readonly toleranceK?: number;
  /** Limits for the time-above maps, °C. */
  readonly timeAboveC?: readonly number[];
  /** Run again with finer steps and with a coarser grid to measure the errors (about three times the work). */
  readonly checkErrors?: boolean;
  /** Longest run by the guess of `planCost`, s; default an hour. A longer one is refused before it begins. */
  readonly longestRunS?: number;
  /** Longest wait for an interpass limit, s; default 4 h. */
  readonly longestWaitS?: number;
  /** Called about four times a second. */
  readonly onProgress?: (progress: PlateProgress) => void;
}

/** Where a run is. */
export interface PlateProgress {
  /** "pass 2 of 4", "waiting for TC1 before pass 3", "cooling". */
  readonly doing: string;
  readonly timeS: number;
  readonly steps: number;
  /** Hottest metal now, °C. */
  readonly hottestC: number;
}
