import { GAS_CONSTANT } from '../../quantity';
import type { PrecipitateParameters } from './parameters';

/** Mg in the matrix in equilibrium with large precipitates, wt %: Ce = Cs exp(−Qs/RT). At 185 °C 0.0061. */
export function solvusWtPct(p: PrecipitateParameters, tempK: number): number {
  return p.solvusWtPct * Math.exp(-p.solvusJPerMol / (GAS_CONSTANT * tempK));
}

/** Diffusivity of Mg in aluminium, m²/s: D = D0 exp(−Qd/RT). At 185 °C 3.3e-19. */
export function diffusivityM2PerS(p: PrecipitateParameters, tempK: number): number {
  return p.diffusivityM2PerS * Math.exp(-p.diffusionJPerMol / (GAS_CONSTANT * tempK));
}

/** Gibbs–Thomson length 2 γ Vm / R, m·K: a particle of radius r raises the solvus by exp(length / (r T)). */
export function capillaryMK(p: PrecipitateParameters): number {
  return (2 * p.interfaceJPerM2 * p.molarVolumeM3) / GAS_CONSTANT;
}

/**
 * Mg in the matrix at the surface of a particle, wt %: Ci = Ce exp(2γVm / rRT), held at half the precipitate's
 * own Mg: beyond that the growth law would change sign.
 */
export function interfaceWtPct(p: PrecipitateParameters, tempK: number, radiusM: number): number {
  const free = solvusWtPct(p, tempK) * Math.exp(capillaryMK(p) / (radiusM * tempK));
  return Math.min(free, 0.5 * p.precipitateMgWtPct);
}

/** Growth rate of a particle, m/s: v = (C − Ci)/(Cp − Ci) · D/r. Negative: it dissolves. */
export function growthMPerS(
  p: PrecipitateParameters,
  tempK: number,
  matrixMgWtPct: number,
  radiusM: number,
): number {
  const ci = interfaceWtPct(p, tempK, radiusM);
  return ((matrixMgWtPct - ci) / (p.precipitateMgWtPct - ci)) * (diffusivityM2PerS(p, tempK) / radiusM);
}

/** Radius that neither grows nor dissolves, m: r* = 2γVm / (RT ln(C/Ce)); infinite where nothing is stable. */
export function criticalRadiusM(p: PrecipitateParameters, tempK: number, matrixMgWtPct: number): number {
  const drive = Math.log(matrixMgWtPct / solvusWtPct(p, tempK));
  return drive > 0 ? capillaryMK(p) / (tempK * drive) : Number.POSITIVE_INFINITY;
}

/** New particles, 1/(m³ s): J = j0 exp(−(A0/RT)³ / ln²(C/Ce)) exp(−Qd/RT); zero below the solvus. */
export function nucleationPerM3S(p: PrecipitateParameters, tempK: number, matrixMgWtPct: number): number {
  const drive = Math.log(matrixMgWtPct / solvusWtPct(p, tempK));
  if (!(drive > 0)) return 0;
  const rt = GAS_CONSTANT * tempK;
  return (
    p.nucleationPerM3S * Math.exp(-((p.nucleationJPerMol / rt) ** 3) / drive ** 2 - p.diffusionJPerMol / rt)
  );
}
