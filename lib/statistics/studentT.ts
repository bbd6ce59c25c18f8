import { bisect, gammaln } from 'simple-statistics';
import { requireNumber } from '../quantity';
import { normalProbability } from './normalDistribution';

/** The density's own transform falls like exp(−π ω/4): with this step, 1e-14 is left of it. */
const WIDEST_STEP = 0.15;
/** ln of the weight, relative to its peak, below which nothing is left to add. */
const LOG_NEGLIGIBLE = -40;

/**
 * Probability that a noncentral t value with `dof` degrees of freedom and noncentrality δ is below t; δ = 0 is
 * Student's t. With s² = χ²/ν, P = ∫ Φ(t s − δ) f(s) ds; in u = ln s the integrand dies away faster than
 * exponentially on both sides, where the trapezoidal rule converges like a Gaussian. Within 1e-11 up to 1000
 * degrees of freedom, 1e-8 up to 1e6 (the
 * digits of ln Γ).
 * Source: definition of the distribution, e.g. Johnson and Kotz, Continuous Univariate Distributions 2.
 * @throws TemperbookError unless dof is from 1 to 1e6 and |δ| at most 1e4.
 */
export function tProbability(t: number, dof: number, noncentrality = 0): number {
  requireNumber(t, 'Value of t');
  requireNumber(dof, 'Degrees of freedom', { low: 1, high: 1e6 });
  requireNumber(noncentrality, 'Noncentrality', { low: -1e4, high: 1e4 });
  // ln of the density of u: ln 2 + (ν/2) ln(ν/2) − ln Γ(ν/2) + ν u − ν e^(2u)/2, its peak at u = 0.
  const logPeak = Math.LN2 + (dof / 2) * Math.log(dof / 2) - gammaln(dof / 2) - dof / 2;
  const step = Math.min(WIDEST_STEP, 0.5 / Math.sqrt(2 * dof), 0.5 / (1 + Math.abs(noncentrality)));
  let probability = 0;
  for (const sign of [-1, 1])
    for (let k = sign < 0 ? 0 : 1; ; k++) {
      const u = sign * k * step;
      const logWeight = dof * u - (dof / 2) * Math.expm1(2 * u);
      if (logWeight < LOG_NEGLIGIBLE) break;
      probability += Math.exp(logPeak + logWeight) * normalProbability(t * Math.exp(u) - noncentrality);
    }
  return Math.min(1, probability * step);
}

/**
 * t with `tProbability(t, dof, δ)` = `probability`, within 1e-10, by bisection (simple-statistics).
 *
 * @throws TemperbookError as `tProbability`, and on a probability outside 1e-6 to 1 − 1e-6.
 * @example tQuantile(0.95, 4) // 2.1318
 */
export function tQuantile(probability: number, dof: number, noncentrality = 0): number {
  requireNumber(probability, 'Probability', { low: 1e-6, high: 1 - 1e-6 });
  const short = (t: number): number => tProbability(t, dof, noncentrality) - probability;
  let reach = 1;
  while (short(noncentrality + reach) < 0 || short(noncentrality - reach) > 0) reach *= 2;
  return bisect(short, noncentrality - reach, noncentrality + reach, 200, 1e-10);
}
