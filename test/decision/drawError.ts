/** Share of the draws by which the 5 % line of 400 low-discrepancy draws may lie beside that of more of them: two of 400. */
const DRAWS_BESIDE = 2 / 400;

/**
 * How far the low end of a band moves with the number of draws. Of a normal band the 5 % line lies 1.645 σ under the median and
 * its density is φ(1.645)/σ = 0.103/σ, so a shift by Δp moves the line by Δp σ/0.103 = 5.9 Δp (nominal − low).
 */
export const drawError = ({ nominal, low }: { readonly nominal: number; readonly low: number }): number =>
  5.9 * DRAWS_BESIDE * Math.max(0, nominal - low) + 1e-9;
