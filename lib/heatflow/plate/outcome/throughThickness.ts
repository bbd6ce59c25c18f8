/**
 * How much hotter the heated face of a plate is than its mean through the thickness, K, at a distance from a
 * round arc that stands still or moves slowly against the thickness (v d / 2πα below about 0.3):
 *
 * ΔT = q/(π k d) · Σ over n of ½ ∫ exp(−x)/(x + s) · exp(−ρ²/(4 (x + s))) dx, from 0 to ∞,
 * s = (nπR/d)²/12, ρ = nπ r/d
 *
 * For a point arc (R → 0) each term is K0(nπ r/d), the cosine series of the point source between two insulated
 * faces; for a wide one ΔT tends to flux × d/(3 k). Derived from the plate's images in H. S. Carslaw & J. C. Jaeger,
 * Conduction of Heat in Solids (1959), §14.10; checked against the medium-plate solution in the tests.
 */
export function faceExcessK({
  netPowerW,
  radiusMm,
  thicknessMm,
  conductivityWPerMmK,
  distanceMm,
}: {
  readonly netPowerW: number;
  /** Where the flux has fallen to 5 %. */
  readonly radiusMm: number;
  readonly thicknessMm: number;
  readonly conductivityWPerMmK: number;
  readonly distanceMm: number;
}): number {
  let sum = 0;
  for (let n = 1; n <= MODES; n++) {
    const wave = (n * Math.PI) / thicknessMm;
    sum += spreadK0((wave * radiusMm) ** 2 / 12, wave * distanceMm);
  }
  return (netPowerW / (Math.PI * conductivityWPerMmK * thicknessMm)) * sum;
}

const MODES = 8;

/** ½ ∫ exp(−x)/(x + s) exp(−ρ²/(4(x + s))) dx by the trapezoidal rule in ln x, which converges geometrically. */
function spreadK0(s: number, rho: number): number {
  const step = 0.5;
  let sum = 0;
  for (let u = -16; u <= 4; u += step) {
    const x = Math.exp(u);
    sum += (x / (x + s)) * Math.exp(-x - rho ** 2 / (4 * (x + s)));
  }
  return 0.5 * step * sum;
}
