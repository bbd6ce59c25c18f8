/** One heating of the trace: a weld pass, a repair, a preheat. Times on the history's axis, s. */
export interface Pass {
  /** 1-based. */
  readonly number: number;
  readonly startS: number;
  readonly peakS: number;
  readonly endS: number;
  readonly peakC: number;
  /** Temperature just before this pass started: the interpass temperature (before the first pass, the preheat). */
  readonly interpassC: number;
  /** Steepest heating, K/s. */
  readonly heatingRateKPerS: number;
  /** Steepest cooling, K/s, positive. */
  readonly coolingRateKPerS: number;
}
