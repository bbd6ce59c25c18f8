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

/**
 * The over-ageing curve of one temper; see `overageingCurve` for the formula. Times are equivalent times at
 * the `referenceC` of the alloy.
 */
export interface OverageingCurve {
  /** Yield that remains when every hardening particle has coarsened away, MPa. */
  readonly floorYieldMPa: Sourced;
  /** Hardening still to come before the peak, as a fraction of the temper's own; 0 for a peak-aged temper. */
  readonly gainFraction: Sourced;
  /** Time constant of that rise, s. */
  readonly riseTimeS: Sourced;
  /** Time scale of coarsening, s: long after the peak the hardening left is (t / softenTimeS)^(−1/3). */
  readonly softenTimeS: Sourced;
  /** Exposure the temper has seen already, counted from the state the curve starts at (T6), s. */
  readonly startDoseS: Sourced;
}

/** What the measured exposures behind an over-ageing curve cover; outside it the curve extrapolates. */
export interface EvidenceRange {
  readonly minC: number;
  readonly maxC: number;
  /** Longest measured exposure, as equivalent time at the alloy's `referenceC`, s. */
  readonly longestDoseS: number;
}

/** Constants of the over-ageing curve of one alloy; see `overageingModel` for the formula. */
export interface OverageingConstants {
  /** J/mol; nominal 130 000, band 110 000–145 000. */
  readonly activationEnergyJPerMol: Sourced;
  /**
   * Temperature to which exposure is reduced, °C. It lies where the measured exposures are, so that the band
   * of the activation energy opens only away from them.
   */
  readonly referenceC: number;
  /** Curve by temper, as fitted by `fitOverageingCurve`. */
  readonly curves: Readonly<Record<string, OverageingCurve>>;
  readonly evidence: EvidenceRange;
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

/** Ageing at room temperature of solute that heat has dissolved; see `naturalAgeing`. */
export interface NaturalAgeingConstants {
  /** Yield gained in the end when all solute was dissolved, MPa. */
  readonly gainMPa: Sourced;
  /** Time constant near 20 °C, s. */
  readonly timeConstantS: Sourced;
}

/** C-curve of quench sensitivity; see `quenchFactor`. */
export interface QuenchConstants {
  readonly k2S: Sourced;
  readonly k3JPerMol: Sourced;
  readonly k4K: Sourced;
  readonly k5JPerMol: Sourced;
  /** Temperatures between which the quench is counted, °C. */
  readonly fromC: Sourced;
  readonly toC: Sourced;
}

/** Constants of the ageing curve from the solution-treated state; see `ageingCurve` for the formulas. */
export interface AgeingConstants {
  readonly activationEnergyJPerMol: Sourced;
  readonly referenceC: number;
  /** Time to the reference point P* = 1 at `referenceC`, s; the strength peaks at about a quarter of it. */
  readonly peakTimeS: Sourced;
  /** Precipitation time constant as a fraction of the peak time. */
  readonly precipitationRatio: Sourced;
  /** Strength parameter S0 at absolute zero, MPa, and how it falls to zero at the metastable solvus. */
  readonly maxStrengthMPa: Sourced;
  readonly solvusEnthalpyJPerMol: Sourced;
  readonly solvusC: Sourced;
  /** Yield of the matrix without solute or particles, MPa. */
  readonly intrinsicMPa: Sourced;
  /** Solid-solution strength as quenched and when fully aged, MPa. */
  readonly quenchedSolutionMPa: Sourced;
  readonly agedSolutionMPa: Sourced;
  /** Standard deviation of measured yields about the curve, MPa. */
  readonly scatterMPa: Sourced;
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
  /** To what the limit applies: any reading, the metal between passes, the preheat, or the start of melting. */
  readonly applies: 'peak' | 'interpass' | 'preheat' | 'melting';
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
  /** Product form the strengths stand for ('sand casting', 'extrusion and plate'). */
  readonly form: string;
  readonly compositionWtPct: Readonly<Record<string, ElementRange>>;
  readonly compositionSource: string;
  readonly matrixWtPct: MatrixWtPct;
  /** Why the matrix differs from the nominal composition (eutectic silicon, iron phases). */
  readonly matrixNote: string;
  readonly tempers: Readonly<Record<string, TemperEntry>>;
  readonly overageing: OverageingConstants;
  readonly dissolution: DissolutionConstants;
  readonly naturalAgeing: NaturalAgeingConstants;
  /** Absent where no calibration exists. */
  readonly ageing?: AgeingConstants;
  /** Absent where no C-curve is known. */
  readonly quench?: QuenchConstants;
  readonly thermal: ThermalConstants;
  readonly limits: readonly AlloyLimit[];
  readonly allowances: readonly ExposureAllowance[];
}
