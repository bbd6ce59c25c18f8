import { clusterStrengthMPa, relaxClusters } from './clusters';
import type { PrecipitateParameters } from './parameters';
import type { Population, Solute } from './precipitateState';
import { type ClassBuffer, classBuffer, sizeClasses, tidyClasses } from './sizeClasses';
import { matrixSiWtPct, stepper } from './step';
import { type ParticleSums, particleStrengthMPa, particleSums, solutionStrengthMPa } from './strength';
import type { PathPart, ThermalPath } from './thermalPath';

/** What a population amounts to at one place of a thermal path. */
export interface Moment extends ParticleSums {
  readonly place: number;
  readonly mgWtPct: number;
  readonly clusterMgWtPct: number;
  readonly siWtPct: number;
  readonly particleMPa: number;
  readonly clusterMPa: number;
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
export const STEP_TOLERANCE_MPA = 0.02;
/** What a relative error of the particle count weighs, MPa: few early particles decide much later. */
const COUNT_WEIGHT_MPA = 20;
/** How far the Mg in clusters may bend away from the straight line read between the moments, wt %. */
const BEND_WT_PCT = 0.005;
/** Particles per m³ too few to matter for any later strength. */
const FEW_PER_M3 = 1e14;
/** A step cut this often is taken as it is: its error is in the sum stated. */
const MOST_TRIES = 30;
/** Below this no step is cut: a second at room temperature, m². */
const LEAST_STEP_M2 = 1e-27;
/** First step, m²: a new particle of 1 nm then grows by about a thousandth. */
const FIRST_STEP_M2 = 1e-20;

/** Width of a size class in ln r; what narrower or wider ones change is in the convergence test. */
export const CLASS_WIDTH = 0.04;

/** Adds up a population and its strength. Si goes into precipitates in their own ratio to Mg, down to none. */
export function moment(
  p: PrecipitateParameters,
  solute: Solute,
  classes: ClassBuffer,
  { mgWtPct, clusterMgWtPct }: Dissolved,
  place = 0,
): Moment {
  const sums = particleSums(classes, p.shearRadiusM);
  const siWtPct = matrixSiWtPct(p, solute, mgWtPct);
  return {
    ...sums,
    place,
    mgWtPct,
    clusterMgWtPct,
    siWtPct,
    particleMPa: particleStrengthMPa(p, sums),
    clusterMPa: p.clusters ? clusterStrengthMPa(p.clusters, clusterMgWtPct) : 0,
    solutionMPa: solutionStrengthMPa(p, {
      Mg: mgWtPct - clusterMgWtPct,
      Si: Math.max(0, siWtPct - p.siliconPerMagnesium * clusterMgWtPct),
      Cu: solute.Cu,
    }),
  };
}

/** Mg outside particles. */
type Dissolved = Pick<Population, 'mgWtPct' | 'clusterMgWtPct'>;

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
  const grow = stepper(p, solute);
  /** Particles, and the clusters that follow the matrix they leave (mean of before and after). */
  function step(from: ClassBuffer, before: Dissolved, s: PathPart, into: ClassBuffer): Dissolved {
    const mgWtPct = grow(from, before.mgWtPct, s.tempK, s.thetaM2, into);
    if (!p.clusters) return { mgWtPct, clusterMgWtPct: 0 };
    const mean = (before.mgWtPct + mgWtPct) / 2;
    const relaxed = relaxClusters(p.clusters, mean, before.clusterMgWtPct, s);
    return { mgWtPct, clusterMgWtPct: Math.min(relaxed, mgWtPct) };
  }
  const now = classBuffer(start.classes);
  const whole = classBuffer();
  const half = classBuffer();
  const next = classBuffer();
  let solved: Dissolved = start;
  let place = 0;
  let length = FIRST_STEP_M2;
  let steps = 0;
  let rejected = 0;
  let tries = 0;
  let stepErrorMPa = 0;
  const moments = [moment(p, solute, now, solved)];

  while (place < path.end) {
    const end = path.walk(place, length);
    const all = path.stretch(place, end);
    const middle = all.thetaM2 > 0 ? path.walk(place, all.thetaM2 / 2) : (place + end) / 2;
    const early = path.stretch(place, middle);
    const late = path.stretch(middle, end);
    const solvedWhole = step(now, solved, all, whole);
    const solvedHalf = step(now, solved, early, half);
    const solvedNext = step(half, solvedHalf, late, next);
    const once = moment(p, solute, whole, solvedWhole);
    const between = moment(p, solute, half, solvedHalf, middle);
    const twice = moment(p, solute, next, solvedNext, end);
    const yieldError =
      Math.abs(once.particleMPa - twice.particleMPa) +
      Math.abs(once.clusterMPa - twice.clusterMPa) +
      Math.abs(once.solutionMPa - twice.solutionMPa);
    const before = moments[moments.length - 1]!;
    const bend = Math.abs(before.clusterMgWtPct - 2 * between.clusterMgWtPct + twice.clusterMgWtPct) / 8;
    const countError =
      Math.abs(once.numberPerM3 - twice.numberPerM3) / Math.max(twice.numberPerM3, FEW_PER_M3);
    const estimate = Math.max(
      (yieldError + COUNT_WEIGHT_MPA * Math.min(1, countError)) / 3,
      toleranceMPa * (bend / BEND_WT_PCT),
    );
    // Far too long a step can take more Mg out of the matrix than it holds: no number, and so no good step.
    const error = Number.isFinite(estimate) ? estimate : Number.POSITIVE_INFINITY;
    length =
      Math.max(all.thetaM2, LEAST_STEP_M2) *
      Math.min(4, Math.max(0.2, 0.9 * Math.cbrt(toleranceMPa / Math.max(error, 1e-12))));
    if (error > toleranceMPa && tries < MOST_TRIES) {
      tries++;
      rejected++;
      continue;
    }
    moments.push(between, twice);
    tidyClasses(next, classWidth, now);
    solved = solvedNext;
    place = end;
    tries = 0;
    steps++;
    stepErrorMPa += yieldError / 3;
  }
  return { population: { classes: sizeClasses(now), ...solved }, moments, steps, rejected, stepErrorMPa };
}
