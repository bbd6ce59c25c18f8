import type { MetalFamily } from '../plausibleMetal';

/** What is believed of a fitted constant before the rows: normal, inside bounds. */
export interface Prior {
  readonly mean: number;
  readonly sd: number;
  readonly low?: number;
  readonly high?: number;
  /** Why. */
  readonly because: string;
}

/** Handbook figures are a composite of many lots: their own clock lies within this of the population's, ln time. */
export const HANDBOOK_CLOCK_SD = 0.2;
/** The lot under which the handbook figures of 6061 stand in the evidence. */
export const HANDBOOK_LOT = '6061 handbook composite';
/** Of a handbook figure's standard error, the part that all points of one temperature share. */
export const HANDBOOK_SHARED = 0.7;
/** Half-normal scale of the scatter between lots, ln time. */
export const SCATTER_SCALE = 0.7;

const SHARED = {
  softenKJ: {
    mean: 200,
    sd: 60,
    low: 80,
    high: 350,
    because: 'wide: measured energies run from 58 to 230 kJ/mol',
  },
  softenLn: { mean: 14.5, sd: 4, because: 'wide' },
  power: { mean: 0.4, sd: 0.3, low: 0.1, high: 1, because: 'wide' },
  dissolveLn: {
    mean: Math.log(165),
    sd: 0.85,
    because: '30 to 900 s at 375 °C: the published 600 s looks 4 to 20 times too slow',
  },
  dissolveKJ: { mean: 190, sd: 8, because: 'Qs/n + Qd of the iso-kinetic rule' },
  solvusC: {
    mean: 415,
    sd: 20,
    low: 360,
    high: 500,
    because: '6063 dissolves above a weld peak of 402 °C; all in solution above 450 °C',
  },
  solvusKJ: {
    mean: 43,
    sd: 6,
    low: 30,
    high: 65,
    because: '37 beside particles of 5 nm (size-class model), 48 beside coarse Mg2Si (equilibrium, memory)',
  },
  ageLn: { mean: Math.log(6000), sd: 0.7, because: 'a third of the time to peak, 1e4 to 5e4 s at 185 °C' },
  ageKJ: {
    mean: 110,
    sd: 15,
    low: 60,
    because: 'published energies of ageing to the peak, 58 to 143 kJ/mol',
  },
  noAgeingWroughtC: {
    mean: 480,
    sd: 30,
    low: 400,
    high: 560,
    because:
      'size-class model: peak yields of 6061 and 6082 from solution at 220 to 350 °C lie on lines to 435 to 510 °C',
  },
  noAgeingCastC: {
    mean: 350,
    sd: 15,
    low: 310,
    high: 400,
    because: 'peak yields against temperature of castings; 128 MPa at 300 °C from solution',
  },
  nucleiLn: {
    mean: Math.log(0.4),
    sd: 0.5,
    because: 'yield of 6061 after 18 min at 200 °C is near that of the quench (175 against 100 MPa, 2013)',
  },
  clock6063: { mean: 0, sd: 0.6, because: 'an alloy scatters from its family like a lot' },
  clock6082: { mean: 0, sd: 0.6, because: 'an alloy scatters from its family like a lot' },
  clockCast: { mean: 0, sd: 0.6, because: 'the same precipitates as in 6061' },
  ageingClockCast: { mean: 0, sd: 0.6, because: 'the same precipitates as in 6061' },
  floor6061: { mean: 54, sd: 6, low: 30, high: 83, because: '6061-O: 0.19 to 0.20 of T6' },
  floorCast: { mean: 85, sd: 10, low: 55, high: 110, because: 'as cast 80 to 112 MPa; annealed lower' },
  peakCast: {
    mean: 235,
    sd: 20,
    low: 190,
    high: 300,
    because: 'near-peak 356/A356: 223, 225 MPa; artificially aged longest 200 to 250 MPa',
  },
  solution: { mean: 0, sd: 1, because: 'the band of the card' },
} as const satisfies Record<string, Prior>;

/**
 * Delay of the family `delayed`, the stand-in for the size-class model. With 174 s at 260 °C, 170 kJ/mol and a power of
 * 0.49 it repeats that model's loss of 6061-T6 from 204 to 371 °C and 1 s to 10 h within 0.014, with the constants
 * calibrated on ageing; refitted to the handbook rows and the weld-like anchors (`fitPrecipitateToAnchors`) the model has
 * no delay left: half a second, and none at all repeats it within 0.021. Both sets lie within two standard deviations of
 * the prior; the rows decide between them.
 */
const DELAY = {
  delayLn: {
    mean: Math.log(10),
    sd: 1.5,
    because: 'size-class model: 174 s calibrated, 0.5 s refitted to the anchors',
  },
  delayKJ: {
    mean: 130,
    sd: 40,
    low: 40,
    because: 'size-class model: 170 calibrated, 77 refitted to the anchors',
  },
} as const satisfies Record<string, Prior>;

/** The constants that the fit moves. */
export type FittedName = keyof typeof SHARED | keyof typeof DELAY;

/** Priors of the constants that a family of the short range has. */
export const fitPriors = (family: MetalFamily): Readonly<Partial<Record<FittedName, Prior>>> =>
  family === 'delayed' ? { ...SHARED, ...DELAY } : SHARED;

/** Priors of the constants that no row speaks of. */
export const UNSEEN_PRIORS = {
  coarseCatch: {
    mean: 1.2,
    sd: 0.25,
    low: 0.5,
    high: 2,
    because: 'size-class model: 48 to 63 % of T6 comes back after 400 to 450 °C',
  },
  restLn: {
    mean: Math.log(3),
    sd: 0.4,
    low: 0,
    because:
      'natural ageing before delays ageing at 175 °C, no more so after 10 days; no figure: 1.5 to 6 times',
  },
  clusterLn: { mean: Math.log(7 * 86_400), sd: 0.25, because: 'natural ageing levels off in about 25 days' },
  clusterKJ: { mean: 65, sd: 8, low: 50, high: 80, because: 'a stated doubt: 50 to 80 kJ/mol' },
} as const satisfies Record<string, Prior>;

/** Quadratic log density of a prior, −∞ outside its bounds. */
export function logPrior({ mean, sd, low, high }: Prior, x: number): number {
  if ((low !== undefined && x < low) || (high !== undefined && x > high)) return Number.NEGATIVE_INFINITY;
  return -(((x - mean) / sd) ** 2) / 2;
}
