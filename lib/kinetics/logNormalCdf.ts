const SQRT_2PI = Math.sqrt(2 * Math.PI);

/**
 * ln Φ(z), natural logarithm of the standard normal distribution, to about 1e-14 relative for −1e6 < z < 38;
 * it stays smooth far into the tail where Φ itself underflows. Series for |z| < 3, else the continued fraction
 * of Mills' ratio. Source: Abramowitz and Stegun 26.2.11 and 26.2.14. Example: ln Φ(−1.644854) = ln 0.05.
 */
export function logNormalCdf(z: number): number {
  const density = Math.exp(-0.5 * z * z) / SQRT_2PI;
  if (Math.abs(z) < 3) {
    let term = z;
    let sum = z;
    for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) {
      term *= (z * z) / k;
      sum += term;
    }
    return Math.log(0.5 + density * sum);
  }
  const x = Math.abs(z);
  let fraction = x;
  for (let k = 60; k > 0; k--) fraction = x + k / fraction;
  return z > 0 ? Math.log1p(-density / fraction) : -0.5 * z * z - Math.log(SQRT_2PI * fraction);
}
