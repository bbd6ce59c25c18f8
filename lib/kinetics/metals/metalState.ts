/**
 * Where a part stands: plain numbers, never changed in place, so that histories chain (earlier heats, weld, rest,
 * re-ageing). Shares are of all the particles the alloy can form. Its yield is
 *
 *   floor + hardening · [original · (1 − X) · S + aged · S′] + soluble · (solution + natural · clustered)
 *
 * with X = √`dissolution`, S and S′ the softening of the original and of newly aged particles.
 */
export interface MetalState {
  /** MPa, of this part; see `PlausibleMetal`. */
  readonly startYieldMPa: number;
  readonly floorMPa: number;
  readonly hardeningMPa: number;
  readonly solutionMPa: number;
  readonly naturalMPa: number;
  /** Share of the particles that was there before the heat. */
  readonly original: number;
  /** What they have seen: on the clock of the softening curve, of its delay, and of dissolution. */
  readonly dose: number;
  readonly delay: number;
  readonly dissolution: number;
  /** Solute in solution, and how much of it is in clusters, 0 … 1. */
  readonly soluble: number;
  readonly clustered: number;
  /** How much of it room temperature can bring into clusters: little after ageing, all of what heat dissolved since. */
  readonly clusterable: number;
  /** How far the solute has nuclei to harden on, and how much of it remembers a rest in the cold, which hinders them; 0 … 1. */
  readonly nuclei: number;
  readonly rested: number;
  /** Particles formed since, and what they have seen. */
  readonly aged: number;
  readonly agedDose: number;
}
