import type { Sourced } from '../quantity';

/** Alloy families the models know apart. */
export type AlloyFamily = 'Al-Si-Mg casting' | 'Al-Mg-Si wrought';

/** Composition limits of one element, wt %; `nominal` is what a model uses when nothing was measured. */
export interface ElementRange {
  readonly min: number;
  readonly max: number;
  readonly nominal: number;
}

/** Solute available for hardening after solution treatment, wt % in the aluminium matrix. */
export interface MatrixWtPct {
  readonly Mg: number;
  readonly Si: number;
  readonly Cu: number;
}

/** What one temper of an alloy is: strengths, hardness, and the ageing that made it. */
export interface TemperEntry {
  /** Typical 0.2 % proof stress, MPa; the band is the spread from part to part. */
  readonly yieldMPa: Sourced;
  readonly ultimateMPa: Sourced;
  /** Specified minimum yield, MPa, where a standard gives one. */
  readonly minimumYieldMPa?: Sourced;
  readonly minimumUltimateMPa?: Sourced;
  readonly elongationPct?: Sourced;
  /** Brinell 10 mm / 500 kgf. */
  readonly brinell?: Sourced;
  /** Conductivity, % IACS. */
  readonly conductivityIacs?: Sourced;
  /** Artificial ageing that makes this temper from the solution-treated state. */
  readonly ageing?: { readonly tempC: Sourced; readonly timeS: Sourced };
  /** True where the practice stops before peak strength: more heat first raises the yield. */
  readonly underAged: boolean;
}

/** Constants of the over-ageing curve of one alloy; see `overageingModel` for the formula. */
export interface OverageingConstants {
  /** J/mol; nominal 130 000, band 110 000–145 000. */
  readonly activationEnergyJPerMol: Sourced;
  /** Temperature to which exposure is reduced, °C. */
  readonly referenceC: number;
  /** Curve parameters by temper, as fitted; names are those of `overageingCurve`. */
  readonly curves: Readonly<Record<string, Readonly<Record<string, Sourced>>>>;
  /**
   * How many times faster the real alloy over-ages than the published precipitate model says. A shop's own
   * coupons override it.
   */
  readonly timeFactor: Sourced;
}

/** Constants of the iso-kinetic dissolution rule; see `dissolvedFraction`. */
export interface DissolutionConstants {
  readonly referenceC: Sourced;
  /** Time for complete dissolution at `referenceC`, s. */
  readonly referenceTimeS: Sourced;
  readonly solvusEnthalpyJPerMol: Sourced;
  readonly diffusionEnergyJPerMol: Sourced;
  readonly exponent: Sourced;
  /** Yield with everything dissolved and freshly cooled, MPa. */
  readonly floorYieldMPa: Sourced;
}

/** Room-temperature thermophysical constants and how they move with temperature. */
export interface ThermalConstants {
  readonly densityKgPerM3: Sourced;
  readonly conductivityWPerMK: Sourced;
  readonly specificHeatJPerKgK: Sourced;
  readonly latentHeatJPerKg: Sourced;
  readonly solidusC: Sourced;
  readonly liquidusC: Sourced;
  /** Solution treatment temperature, °C. */
  readonly solutionC: Sourced;
  /** Optional tables over temperature; both arrays equally long, temperatures ascending. */
  readonly conductivityTable?: PropertyTable;
  readonly specificHeatTable?: PropertyTable;
}

/** A property against temperature, linear between points, held constant outside. */
export interface PropertyTable {
  readonly tempC: readonly number[];
  readonly value: readonly number[];
  readonly source: string;
}

/** A temperature limit of practice or standard, drawn on figures and checked by `judge`. */
export interface AlloyLimit {
  readonly name: string;
  readonly limitC: Sourced;
  /** What the limit means to a welder, one sentence. */
  readonly meaning: string;
}

/** Exposure practice calls harmless: a dose as time at a temperature. */
export interface ExposureAllowance {
  readonly name: string;
  readonly atC: number;
  readonly timeS: Sourced;
  /** Yield loss the practice accepts, fraction. */
  readonly lossFraction: Sourced;
}

/** Everything the kit knows about one alloy. Files of this shape live in data/alloys; a shop may add its own. */
export interface AlloyCard {
  readonly designation: string;
  readonly otherNames: readonly string[];
  readonly family: AlloyFamily;
  readonly compositionWtPct: Readonly<Record<string, ElementRange>>;
  readonly matrixWtPct: MatrixWtPct;
  /** Why the matrix differs from the nominal composition (eutectic silicon, iron phases). */
  readonly matrixNote: string;
  readonly tempers: Readonly<Record<string, TemperEntry>>;
  readonly overageing: OverageingConstants;
  readonly dissolution: DissolutionConstants;
  readonly thermal: ThermalConstants;
  readonly limits: readonly AlloyLimit[];
  readonly allowances: readonly ExposureAllowance[];
}
