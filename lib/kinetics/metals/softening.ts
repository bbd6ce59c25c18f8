/**
 * Share of a hardening that coarsening has left, by the curve of the handbooks,
 *
 *   S(x) = 1 / (1 + xᵐ),  x = ∫ dt/τ(T),
 *
 * a logistic in the logarithm of the equivalent time. `dose` is x ≥ 0, `power` m. Source: the form is this kit's, chosen for
 * the exposure tables of 6061-T6 in data/published/overageing.json; the members' m is fitted to them.
 */
export function curveLeft(dose: number, power: number): number {
  return dose > 0 ? 1 / (1 + Math.exp(power * Math.log(dose))) : 1;
}

/**
 * The same with a delay: of what the curve takes, z/(1 + z) is really gone, z = ∫ dt/t_d(T). Particles near the peak
 * of ageing lose nothing until some have grown at the cost of others; in the size-class model the loss of a soak so
 * begins with the time itself and not with its third root. With the largest z there is no delay.
 */
export function delayedLeft(dose: number, power: number, delay: number): number {
  const lost = 1 - curveLeft(dose, power);
  return 1 - (lost * delay) / (1 + delay);
}
