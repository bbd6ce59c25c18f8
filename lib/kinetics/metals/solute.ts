/**
 * What solute in solution does: it clusters in the cold (natural ageing), reverts in the heat, and hardens again in
 * an ageing furnace.
 */

/** Clusters are stable up to the first and gone above the second temperature, °C. */
export const CLUSTERS_STABLE_C = 80;
const CLUSTERS_GONE_C = 160;

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

/**
 * Share of ageing solute that makes new fine particles; the rest goes to coarse survivors and is lost. `coarse` and
 * `soluble` are shares of all particles, `catching` how strongly survivors catch.
 */
export function hardeningShare(coarse: number, soluble: number, catching: number): number {
  const caught = (catching * coarse) / (coarse + soluble);
  return caught < 1 ? 1 - caught : 0;
}
