/**
 * One draw of everything that is fitted or guessed about the metals of the family, the same for a casting and the
 * tube welded to it; what belongs to one part alone is a standard normal score. `metalOf` makes the metal of an alloy
 * and temper from it. Energies in kJ/mol, times as ln s, strengths in MPa, clocks in ln time.
 */
export interface MemberDraw {
  /** 0: `curve`, 1: `delayed`. */
  readonly delayed: number;
  /** Softening curve of 6061: activation energy, ln time at 200 °C, power. */
  readonly softenKJ: number;
  readonly softenLn: number;
  readonly power: number;
  /** Delay at 260 °C. */
  readonly delayLn: number;
  readonly delayKJ: number;
  /** Dissolution at 375 °C, solvus and its heat. */
  readonly dissolveLn: number;
  readonly dissolveKJ: number;
  readonly solvusC: number;
  readonly solvusKJ: number;
  /** Ageing at 185 °C. */
  readonly ageLn: number;
  readonly ageKJ: number;
  /** No hardening forms from here on, wrought and cast. */
  readonly noAgeingWroughtC: number;
  readonly noAgeingCastC: number;
  /** ln of the time of nuclei over that of ageing; ln of the factor by which a rest in the cold draws it out. */
  readonly nucleiLn: number;
  readonly restLn: number;
  readonly coarseCatch: number;
  /** Natural ageing at 20 °C. */
  readonly clusterLn: number;
  readonly clusterKJ: number;
  /** Clocks of the other alloys against 6061, ln of their time over its. */
  readonly clock6063: number;
  readonly clock6082: number;
  readonly clockCast: number;
  /** Clock of ageing of castings against wrought metal, ln time. */
  readonly ageingClockCast: number;
  /** Scatter between lots, ln time. */
  readonly scatter: number;
  readonly floor6061: number;
  readonly floorCast: number;
  readonly peakCast: number;
  /** Solid solution of wrought alloys, as a score of the cards' bands. */
  readonly solution: number;
  readonly ultimateA: number;
  readonly ultimateB: number;
  readonly ultimateC: number;
  /** Scores of the wrought part and of the casting. */
  readonly lotWrought: number;
  readonly lotCast: number;
  readonly startWrought: number;
  readonly startCast: number;
  readonly otherWrought: number;
  readonly otherCast: number;
  readonly naturalWrought: number;
  readonly naturalCast: number;
  readonly ageingWrought: number;
  readonly ageingCast: number;
}

/** Name of a constant of a draw, and of its column in the table of members. */
export type DrawColumn = keyof MemberDraw;

/** Columns of a draw that the fit moves; the rest are scores and what follows from the fit. */
export const FITTED_COLUMNS = [
  'softenKJ',
  'softenLn',
  'power',
  'delayLn',
  'delayKJ',
  'dissolveLn',
  'dissolveKJ',
  'solvusC',
  'solvusKJ',
  'ageLn',
  'ageKJ',
  'noAgeingWroughtC',
  'noAgeingCastC',
  'nucleiLn',
  'clock6063',
  'clock6082',
  'clockCast',
  'ageingClockCast',
  'scatter',
  'floor6061',
  'floorCast',
  'peakCast',
  'solution',
] as const satisfies readonly DrawColumn[];

/** Columns that no evidence moves: their draws are those of the prior. */
export const PRIOR_COLUMNS = [
  'coarseCatch',
  'restLn',
  'clusterLn',
  'clusterKJ',
] as const satisfies readonly DrawColumn[];

/** Constants of the ultimate strength, from a fit of their own. */
export const ULTIMATE_COLUMNS = [
  'ultimateA',
  'ultimateB',
  'ultimateC',
] as const satisfies readonly DrawColumn[];

/** Standard normal scores of what belongs to one part. */
export const SCORE_COLUMNS = [
  'lotWrought',
  'lotCast',
  'startWrought',
  'startCast',
  'otherWrought',
  'otherCast',
  'naturalWrought',
  'naturalCast',
  'ageingWrought',
  'ageingCast',
] as const satisfies readonly DrawColumn[];

/** Every column in the order of data/models/plausibleMetals.json. */
export const DRAW_COLUMNS: readonly DrawColumn[] = [
  'delayed',
  ...FITTED_COLUMNS,
  ...PRIOR_COLUMNS,
  ...ULTIMATE_COLUMNS,
  ...SCORE_COLUMNS,
];
