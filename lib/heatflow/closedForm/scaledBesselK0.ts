import { requireNumber } from '../../quantity';

/**
 * Modified Bessel function of the second kind, order zero, times eᶻ: eᶻ K₀(z), for z > 0. Scaled, because K₀
 * itself is below the smallest number a computer holds from z ≈ 745, which is half a metre behind a fast arc.
 *
 * Trapezoidal rule on K₀(z) eᶻ = ∫₀^∞ exp(−z (cosh t − 1)) dt (Abramowitz & Stegun 9.6.24). The integrand is
 * even and analytic, so the rule converges exponentially; the step keeps the error at rounding for every z.
 *
 * Checked against Abramowitz & Stegun table 9.8 to its last digit.
 * @throws TemperbookError when z is not a positive number.
 * @example scaledBesselK0(1) // 1.14446308
 */
export function scaledBesselK0(z: number): number {
  requireNumber(z, 'The argument of K₀', { low: Number.MIN_VALUE });
  const h = Math.min(0.25, 0.7 / Math.sqrt(z));
  let sum = 0.5;
  for (let i = 1; ; i++) {
    const half = Math.sinh((i * h) / 2);
    const term = Math.exp(-2 * z * half * half);
    sum += term;
    if (term < 1e-17) return h * sum;
  }
}
