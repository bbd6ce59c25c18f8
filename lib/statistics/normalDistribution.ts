import { probit } from 'simple-statistics';
import { requireNumber } from '../quantity';

/** Beyond this the series loses digits to cancellation and the continued fraction takes over. */
const TAIL_FROM = 2;
/** From z = 2 on the fraction's error falls like exp(−2 z √(2 n)): 60 terms leave 1e-18. */
const FRACTION_TERMS = 60;

/**
 * Φ(z): probability that a standard normal value is below z, to 15 digits of the smaller of Φ and 1 − Φ. Own code
 * because simple-statistics gives 4 digits (`cumulativeStdNormalProbability`) or 7 (`errorFunction`).
 * Source: series Φ = ½ + φ(z)(z + z³/3 + z⁵/(3·5) + …), Marsaglia, J. Stat. Softw. 11(4), 2004; Laplace's
 * continued fraction 1 − Φ = φ(z)/(z + 1/(z + 2/(z + …))) in the tails.
 * @throws TemperbookError unless z is a number.
 * @example normalProbability(1.96) // 0.9750021
 */
export function normalProbability(z: number): number {
  requireNumber(z, 'Standard normal value');
  if (z > TAIL_FROM) return 1 - normalProbability(-z);
  const density = normalDensity(z);
  if (z < -TAIL_FROM) return density * millsRatio(-z);
  let sum = z;
  let term = z;
  for (let k = 3; sum + term !== sum; k += 2) {
    term *= (z * z) / k;
    sum += term;
  }
  return 0.5 + sum * density;
}

/**
 * ln Φ(z), which keeps its digits far into the lower tail, where Φ itself underflows, to |z| = 1e6.
 *
 * @example Math.exp(logNormalProbability(-1.644854)) // 0.050000
 */
export function logNormalProbability(z: number): number {
  if (z > TAIL_FROM) return Math.log1p(-normalProbability(-z));
  if (z >= -TAIL_FROM) return Math.log(normalProbability(z));
  return Math.log(millsRatio(-z)) - (z * z) / 2 - Math.log(2 * Math.PI) / 2;
}

/**
 * z with Φ(z) = `probability`, for probabilities from 1e-15 to 1 − 1e-15. Newton's method on `normalProbability` from
 * simple-statistics' `probit`, which alone is good to 3 digits.
 * @throws TemperbookError on a probability outside that range.
 * @example normalQuantile(0.975) // 1.959964
 */
export function normalQuantile(probability: number): number {
  requireNumber(probability, 'Probability', { low: 1e-15, high: 1 - 1e-15 });
  // The lower tail keeps its digits, the upper one has none left beside 1.
  if (probability > 0.5) return -normalQuantile(1 - probability);
  let z = probit(probability);
  for (let step = 0; step < 6; step++) z -= (normalProbability(z) - probability) / normalDensity(z);
  return z;
}

/** (1 − Φ(z)) / φ(z) for z ≥ 2. */
function millsRatio(z: number): number {
  let denominator = z;
  for (let k = FRACTION_TERMS; k >= 1; k--) denominator = z + k / denominator;
  return 1 / denominator;
}

function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}
