import type { ClusterParameters } from './clusters';

/**
 * Constants of the size-class precipitation model. SI units and K unless the name says otherwise;
 * concentrations in wt % of the aluminium matrix.
 */
export interface PrecipitateParameters {
  /** Mg inside a precipitate, wt %. */
  readonly precipitateMgWtPct: number;
  /** Si bound per Mg bound, weight ratio. */
  readonly siliconPerMagnesium: number;
  /** Mg solvus Ce = solvusWtPct · exp(−solvusJPerMol / RT). */
  readonly solvusWtPct: number;
  readonly solvusJPerMol: number;
  /** Mg diffusivity D = diffusivityM2PerS · exp(−diffusionJPerMol / RT). */
  readonly diffusivityM2PerS: number;
  readonly diffusionJPerMol: number;
  /** Energy of the precipitate–matrix interface, J/m². */
  readonly interfaceJPerM2: number;
  /** Molar volume of the precipitate, m³/mol. */
  readonly molarVolumeM3: number;
  /** Nucleation rate prefactor, 1/(m³ s), and barrier constant, J/mol. */
  readonly nucleationPerM3S: number;
  readonly nucleationJPerMol: number;
  /** Radius of a new particle over the critical radius. */
  readonly nucleusOverCritical: number;
  /** Yield of pure aluminium, MPa. */
  readonly latticeMPa: number;
  /** Solid-solution strength = Σ k · wt%^(2/3), MPa. */
  readonly solutionMPa: { readonly Mg: number; readonly Si: number; readonly Cu: number };
  readonly taylorFactor: number;
  readonly shearModulusPa: number;
  readonly burgersM: number;
  /** Dislocation line tension = lineTension · G b². */
  readonly lineTension: number;
  /** Radius at which particles stop being sheared and are bypassed, m. */
  readonly shearRadiusM: number;
  /** What the published set leaves out. Absent: as published. */
  readonly clusters?: ClusterParameters;
  /**
   * Solubility product: the Mg solvus goes with (reference Si / Si in the matrix)^exponent. 1/2 is Mg2Si. The
   * published solvus is that of the reference.
   */
  readonly silicon?: { readonly exponent: number; readonly referenceWtPct: number };
  /**
   * True: spacing and force of obstacles averaged over those a slip plane meets (`particleStrengthMPa`). The published
   * formula takes spacing from the volume fraction, in which a few coarse particles beside many fine ones weigh too
   * much.
   */
  readonly slipPlaneAverage?: boolean;
}

/**
 * The published set, unchanged. Source: O.R. Myhr, Ø. Grong, S.J. Andersen, Modelling of the age hardening
 * behaviour of Al–Mg–Si alloys, Acta Mater. 49 (2001) 65–75. Known from memory, not from the opened paper;
 * an independent solver with these values meets measured peak strengths, times and particle densities.
 */
export const publishedParameters: PrecipitateParameters = {
  precipitateMgWtPct: 63.4,
  siliconPerMagnesium: 36.6 / 63.4,
  solvusWtPct: 290,
  solvusJPerMol: 41_000,
  diffusivityM2PerS: 2.2e-4,
  diffusionJPerMol: 130_000,
  interfaceJPerM2: 0.26,
  molarVolumeM3: 3.95e-5,
  nucleationPerM3S: 9.66e34,
  nucleationJPerMol: 16_220,
  nucleusOverCritical: 1.05,
  latticeMPa: 10,
  solutionMPa: { Mg: 29, Si: 66.3, Cu: 46.4 },
  taylorFactor: 3.1,
  shearModulusPa: 2.7e10,
  burgersM: 2.84e-10,
  lineTension: 0.36,
  shearRadiusM: 5e-9,
};
