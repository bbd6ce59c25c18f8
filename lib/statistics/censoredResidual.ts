import { logNormalProbability } from './normalDistribution';

/**
 * How far a prediction is from what a measurement says, in standard errors, so that the sum of squares is
 * −2 ln(likelihood). A measured value gives (measured − predicted)/σ. A test that only says on which side of
 * a bound the truth lies ("still above the minimum after 8 h") gives √(−2 ln Φ(z)) with z the distance on the
 * right side: near 0 well inside, growing like the distance outside. Source: the likelihood of censored
 * normal data (J. Tobin, Econometrica 26 (1958) 24-36).
 */
export function censoredResidual(
  predicted: number,
  kind: 'value' | 'atLeast' | 'below',
  measured: number,
  standardError: number,
): number {
  const z = (measured - predicted) / standardError;
  if (kind === 'value') return z;
  const outside = kind === 'atLeast' ? z : -z;
  const size = Math.sqrt(-2 * logNormalProbability(-outside));
  return kind === 'atLeast' ? size : -size;
}
