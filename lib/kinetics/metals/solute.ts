/**
 * What solute in solution does: it clusters in the cold (natural ageing), reverts in the heat, and hardens again in
 * an ageing furnace.
 */

/** Clusters are stable up to this temperature, °C. */
export const CLUSTERS_STABLE_C = 80;
/** And gone above this one, °C. */
export const CLUSTERS_GONE_C = 160;

/** Share of the solute in clusters when time does not matter, 0 … 1. */
export function clusteredInTheEnd(tempC: number): number {
  return Math.min(1, Math.max(0, (CLUSTERS_GONE_C - tempC) / (CLUSTERS_GONE_C - CLUSTERS_STABLE_C)));
}

/** Ageing reaches its full height up to this temperature, °C. */
export const FULL_AGEING_C = 170;

/**
 * The most hardening that ageing can reach at a temperature, over that at 170 °C: falling in a straight line to 0 at
 * `noAgeingFromC`. A ceiling of what is gained, not of what is there. Source: peak yields of 356 aged at 204, 227
 * and 246 °C, and the size-class model's from solution at 300 °C (128 MPa), lie on such a line within their scatter.
 */
export function ageingCeiling(tempC: number, noAgeingFromC: number): number {
  const share = (noAgeingFromC - tempC) / (noAgeingFromC - FULL_AGEING_C);
  return Math.min(1, Math.max(0, share));
}

/** Solute left over when survivors catch all of it, a share of all particles; see `newParticles`. */
export const leastUseful = (coarse: number, catching: number): number => Math.max(0, (catching - 1) * coarse);

/**
 * What a step of ageing makes of the solute it spends. Of every bit of it the share u(s) = 1 − c k/(k + s) forms new fine
 * particles and the rest goes to coarse survivors and is lost, so spending s₀ − s₁ forms
 *
 *   ∫ u ds = (s₀ − s₁) − c k ln((k + s₀)/(k + s₁)).
 *
 * @param spent s₀ − s₁, at most what leaves `leastUseful`: nothing ages once survivors catch all of it.
 * @param soluble s₀, solute in solution. @param coarse k, coarse survivors; all shares of all particles.
 * @param catching c, how strongly survivors catch.
 */
export function newParticles(spent: number, soluble: number, coarse: number, catching: number): number {
  return spent + catching * coarse * Math.log1p(-spent / (coarse + soluble));
}

/** Of `newParticles` the inverse: what is spent on forming `formed`, taken by the useful share in the middle of the way. */
export function spentOn(formed: number, soluble: number, coarse: number, catching: number): number {
  const least = leastUseful(coarse, catching);
  const useful = (solute: number): number => 1 - (catching * coarse) / (coarse + solute);
  const halfway = useful(Math.max(least, soluble - formed / useful(soluble) / 2));
  return halfway > 0 ? Math.min(formed / halfway, soluble - least) : soluble - least;
}

/**
 * Mean over a step of 1/(1 + b e^(−x u)), 0 ≤ u ≤ 1: how much faster than fully braked nuclei form while a rest in
 * the cold is being forgotten, = 1 + ln[(1 + b e⁻ˣ)/(1 + b)]/x.
 */
export function meanWithoutBrake(brake: number, forgotten: number): number {
  if (forgotten < 1e-6) return 1 / (1 + brake);
  return 1 + Math.log1p((brake * Math.expm1(-forgotten)) / (1 + brake)) / forgotten;
}
