import { GAS_CONSTANT } from '../../quantity';
import type { Arrhenius, PathPart } from './thermalPath';

/**
 * Clusters (Guinier–Preston zones): the second population. They form from the solute the particles leave, at
 * room temperature in days, and dissolve on heating within seconds to minutes. Their strength is that of T4 and of
 * the first hours of ageing; their quick loss is retrogression.
 */
export interface ClusterParameters {
  /** Mg that stays in solution beside clusters at 175 °C, wt %, and the enthalpy that moves it with temperature. */
  readonly solvusAt175CWtPct: number;
  readonly solvusJPerMol: number;
  /** Approach to equilibrium, 1/s. */
  readonly rate: Arrhenius;
  /** Share of the equilibrium that room temperature reaches before the vacancies of the quench run out. */
  readonly naturalShare: number;
  /** Strength of clusters holding 1 wt % Mg, MPa; goes with the square root. */
  readonly strengthMPa: number;
}

/** Mg that stays in solution beside clusters, wt %. */
export function clusterSolvusWtPct(c: ClusterParameters, tempK: number): number {
  return c.solvusAt175CWtPct * Math.exp((c.solvusJPerMol / GAS_CONSTANT) * (1 / 448.15 - 1 / tempK));
}

/**
 * Where the natural share holds and where warmth brings vacancies enough for all, K (30 and 100 °C). Clusters form
 * no faster than at the warm end: hotter metal has less to form them from, and a quench that passes 200 °C in a
 * second must not come out hard. They dissolve at the rate of their own temperature.
 */
const COOL_K = 303.15;
/** The warm end of the two. */
export const WARM_K = 373.15;

/**
 * Mg in clusters after κ = ∫k dt, wt %: q → qe + (q − qe) exp(−κ), qe = share · max(0, matrix Mg − solvus), κ the
 * capped one while they form;
 * matrix Mg counts solute and clusters together. Clusters that warmth made do not go back on cooling.
 */
export function relaxClusters(
  c: ClusterParameters,
  matrixMgWtPct: number,
  clusterMgWtPct: number,
  { tempK, kappa, cappedKappa }: Omit<PathPart, 'thetaM2'>,
): number {
  const most = Math.max(0, matrixMgWtPct - clusterSolvusWtPct(c, tempK));
  const warmth = Math.min(1, Math.max(0, (tempK - COOL_K) / (WARM_K - COOL_K)));
  const reached = most * (c.naturalShare + (1 - c.naturalShare) * warmth);
  const equilibrium = Math.min(most, Math.max(reached, clusterMgWtPct));
  const passed = equilibrium > clusterMgWtPct ? cappedKappa : kappa;
  return equilibrium + (clusterMgWtPct - equilibrium) * Math.exp(-passed);
}

/** Strength of clusters, MPa. */
export function clusterStrengthMPa(c: ClusterParameters, clusterMgWtPct: number): number {
  return c.strengthMPa * Math.sqrt(clusterMgWtPct);
}
