import type { PrecipitateParameters } from './parameters';
import type { Population, Solute } from './precipitateState';
import { type ClassBuffer, classBuffer, sizeClasses, tidyClasses } from './sizeClasses';
import { stepper } from './step';
import { type ParticleSums, particleStrengthMPa, particleSums, solutionStrengthMPa } from './strength';
import type { ThermalPath } from './thermalPath';

/** What a population amounts to at one place of a thermal path. */
export interface Moment extends ParticleSums {
  readonly place: number;
  readonly mgWtPct: number;
  readonly siWtPct: number;
  readonly particleMPa: number;
  readonly solutionMPa: number;
}

/** The way from one population to another. */
export interface Evolution {
  readonly population: Population;
  /** Start, middle and end of every step, in order. */
  readonly moments: readonly Moment[];
  readonly steps: number;
  readonly rejected: number;
  /** Sum over the steps of the estimated error of the yield, MPa. */
  readonly stepErrorMPa: number;
}

/** Estimated error allowed in one step, MPa of yield. */
export const STEP_TOLERANCE_MPA = 0.05;
/** What a relative error of the particle count weighs, MPa: few early particles decide much later. */
const COUNT_WEIGHT_MPA = 20;
/** First step, m²: a new particle of 1 nm then grows by about a thousandth. */
const FIRST_STEP_M2 = 1e-20;

/** Width of a size class in ln r; what narrower or wider ones change is in the convergence test. */
export const CLASS_WIDTH = 0.04;

/** Adds up a population and its strength. Si goes into precipitates in their own ratio to Mg, down to none. */
export function moment(
  p: PrecipitateParameters,
  solute: Solute,
  classes: ClassBuffer,
  mgWtPct: number,
  place = 0,
): Moment {
  const sums = particleSums(classes, p.shearRadiusM);
  const siWtPct = Math.max(0, solute.Si - p.siliconPerMagnesium * (solute.Mg - mgWtPct));
  return {
    ...sums,
    place,
    mgWtPct,
    siWtPct,
    particleMPa: particleStrengthMPa(p, sums),
    solutionMPa: solutionStrengthMPa(p, { Mg: mgWtPct, Si: siWtPct, Cu: solute.Cu }),
  };
}

/** How finely to step; the defaults are those of the model. */
export interface Resolution {
  readonly toleranceMPa?: number;
  readonly classWidth?: number;
}

/**
 * Steps a population along a thermal path. Every step is done once whole and once in two halves; the halves are
 * kept, the difference is the error that sets the next step.
 */
export function evolve(
  p: PrecipitateParameters,
  solute: Solute,
  start: Population,
  path: ThermalPath,
  { toleranceMPa = STEP_TOLERANCE_MPA, classWidth = CLASS_WIDTH }: Resolution = {},
): Evolution {
  const step = stepper(p, solute.Mg);
  const now = classBuffer(start.classes);
  const whole = classBuffer();
  const half = classBuffer();
  const next = classBuffer();
  let mg = start.mgWtPct;
  let place = 0;
  let length = FIRST_STEP_M2;
  let steps = 0;
  let rejected = 0;
  let stepErrorMPa = 0;
  const moments = [moment(p, solute, now, mg)];

  while (place < path.end) {
    const end = path.walk(place, length);
    const all = path.stretch(place, end);
    const middle = all.thetaM2 > 0 ? path.walk(place, all.thetaM2 / 2) : (place + end) / 2;
    const early = path.stretch(place, middle);
    const late = path.stretch(middle, end);
    const mgWhole = step(now, mg, all.tempK, all.thetaM2, whole);
    const mgHalf = step(now, mg, early.tempK, early.thetaM2, half);
    const mgNext = step(half, mgHalf, late.tempK, late.thetaM2, next);
    const once = moment(p, solute, whole, mgWhole);
    const twice = moment(p, solute, next, mgNext, end);
    const yieldError =
      Math.abs(once.particleMPa - twice.particleMPa) + Math.abs(once.solutionMPa - twice.solutionMPa);
    const countError = Math.abs(once.numberPerM3 - twice.numberPerM3) / Math.max(twice.numberPerM3, 1);
    const error = (yieldError + COUNT_WEIGHT_MPA * Math.min(1, countError)) / 3;
    length =
      Math.max(all.thetaM2, FIRST_STEP_M2 * 1e-3) *
      Math.min(4, Math.max(0.2, 0.9 * Math.cbrt(toleranceMPa / Math.max(error, 1e-12))));
    if (error > toleranceMPa) {
      rejected++;
      continue;
    }
    moments.push(moment(p, solute, half, mgHalf, middle), twice);
    tidyClasses(next, classWidth, now);
    mg = mgNext;
    place = end;
    steps++;
    stepErrorMPa += yieldError / 3;
  }
  return { population: { classes: sizeClasses(now), mgWtPct: mg }, moments, steps, rejected, stepErrorMPa };
}
