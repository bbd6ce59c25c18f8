/** The shape of an over-ageing curve; times are equivalent times at the alloy's reference temperature, s. */
export interface OverageingShape {
  /** Hardening still to come before the peak, as a fraction of what the temper has; ≥ 0. */
  readonly gain: number;
  /** Time constant of that rise, > 0. */
  readonly riseS: number;
  /** Time scale of coarsening, > 0: long after the peak the hardening left is (t / softenS)^(−1/3). */
  readonly softenS: number;
}

/**
 * Precipitation hardening left after an exposure, over that of the temper it started from (1 at dose 0):
 *
 *   S(t) = [1 + g (1 − exp(−t/τr))] · [1 + (1 + g)³ t/τs]^(−1/3)
 *
 * The first factor is the hardening an under-aged temper still gains, the second its loss by coarsening.
 * Particles that coarsen at constant volume fraction follow r³ − r₀³ ∝ t (Lifshitz, Slyozov; Wagner 1961) and
 * strengthen as 1/r (Orowan), hence the power −1/3; it is not fitted. The factor (1 + g)³ makes the late curve
 * (t/τs)^(−1/3) whatever the gain. For t ≥ 0; the same units for t, τr and τs.
 */
export function hardeningLeft(doseS: number, { gain, riseS, softenS }: OverageingShape): number {
  const full = 1 + gain;
  const risen = gain === 0 ? 1 : full - gain * Math.exp(-doseS / riseS);
  return risen / Math.cbrt(1 + (full * full * full * doseS) / softenS);
}

/**
 * Exposure at which `hardeningLeft` peaks, s; 0 for a curve that only falls. The slope
 * d ln S/dt = g e^(−t/τr) / (τr (1 + g − g e^(−t/τr))) − c/(3 (1 + c t)), c = (1 + g)³/τs, changes sign once
 * where it starts positive; the root is bisected to rounding.
 */
export function peakDoseS({ gain, riseS, softenS }: OverageingShape): number {
  const c = (1 + gain) ** 3 / softenS;
  const rises = (t: number): boolean => {
    const rest = gain * Math.exp(-t / riseS);
    return rest / (riseS * (1 + gain - rest)) > c / (3 * (1 + c * t));
  };
  if (!rises(0)) return 0;
  let low = 0;
  let high = riseS;
  while (rises(high)) high *= 2;
  for (let mid = high / 2; mid > low && mid < high; mid = (low + high) / 2)
    if (rises(mid)) low = mid;
    else high = mid;
  return low;
}

/**
 * Yield kept after an exposure, as a function of the dose: the floor, which coarsening cannot take, and the
 * hardening left above it, φ + (1 − φ) S(t₀ + t)/S(t₀).
 * @param floorFraction φ, floor yield over the yield at the start, 0 to 1.
 * @param startDoseS t₀, what the temper has seen of the curve already, s.
 */
export function yieldKept(
  shape: OverageingShape,
  floorFraction: number,
  startDoseS: number,
): (doseS: number) => number {
  const perHardening = (1 - floorFraction) / hardeningLeft(startDoseS, shape);
  return (doseS) => floorFraction + perHardening * hardeningLeft(startDoseS + doseS, shape);
}
