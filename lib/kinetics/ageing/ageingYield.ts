import type { AgeingProgress } from './ageingProgress';
import type { AgeingShape } from './ageingShape';

/**
 * Yield of the process model, MPa, at temperature-corrected time P* with precipitated part
 * f = 1 − exp(−P*⁄K₁):
 *
 *   σ = σᵢ + [S_q^1.5 (1 − f) + S_i^1.5 f]^(2/3) + 2 S₀ √f · P*^(1/6)/(1 + P*^(1/2)),
 *
 * S₀² = S₀max² · `capacity`. The last factor blends shearing, which grows as P*^(1/6), with bypassing, which
 * falls as P*^(−1/3); its maximum 1.058 lies at P* = 0.25. Source: Shercliff and Ashby 1990.
 */
export function ageingYieldMPa(
  { precipitationRatio, maxStrengthMPa, intrinsicMPa, quenchedSolutionMPa, agedSolutionMPa }: AgeingShape,
  { correctedTime, capacity }: AgeingProgress,
): number {
  const precipitated = -Math.expm1(-correctedTime / precipitationRatio);
  const solution =
    (quenchedSolutionMPa ** 1.5 * (1 - precipitated) + agedSolutionMPa ** 1.5 * precipitated) ** (2 / 3);
  const particles =
    (2 * maxStrengthMPa * Math.sqrt(capacity * precipitated) * correctedTime ** (1 / 6)) /
    (1 + Math.sqrt(correctedTime));
  return intrinsicMPa + solution + particles;
}

/**
 * dσ/d ln P* of `ageingYieldMPa`, MPa, at the same capacity: positive before the peak, negative after it. With
 * f′ = exp(−P*⁄K₁)/K₁, the particles change by f′⁄2f + 1/(6P*) − 1/(2√P*(1 + √P*)) of themselves per unit P*.
 */
export function ageingYieldSlopeMPa(shape: AgeingShape, progress: AgeingProgress): number {
  const { precipitationRatio, maxStrengthMPa, quenchedSolutionMPa, agedSolutionMPa } = shape;
  const { correctedTime, capacity } = progress;
  const precipitated = -Math.expm1(-correctedTime / precipitationRatio);
  const rate = (correctedTime * Math.exp(-correctedTime / precipitationRatio)) / precipitationRatio;
  const [quenched, aged] = [quenchedSolutionMPa ** 1.5, agedSolutionMPa ** 1.5];
  const solution =
    ((2 / 3) * (aged - quenched) * rate) / Math.cbrt(quenched * (1 - precipitated) + aged * precipitated);
  const root = Math.sqrt(correctedTime);
  const particles =
    (2 * maxStrengthMPa * Math.sqrt(capacity * precipitated) * correctedTime ** (1 / 6)) / (1 + root);
  return solution + particles * (rate / (2 * precipitated) + 1 / 6 - root / (2 * (1 + root)));
}
