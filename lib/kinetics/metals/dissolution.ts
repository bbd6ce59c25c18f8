/**
 * Dissolution of hardening particles by the iso-kinetic rule with a limit: X = √I, I = ∫ dt/t₁(T), and X is never
 * carried beyond what the solvus lets into solution at the temperature of the moment. What is dissolved stays so on
 * cooling. Source: O.R. Myhr, Ø. Grong, Acta Metall. Mater. 39 (1991) 2693-2702; the limit is this kit's.
 */

/** Share of all particles that can be in solution at a temperature: exp[−Qs/R (1/T − 1/Ts)], at most 1. */
export function solubleShare(inverseK: number, solvusPerInverseK: number, solvusInverseK: number): number {
  return inverseK <= solvusInverseK ? 1 : Math.exp(solvusPerInverseK * (solvusInverseK - inverseK));
}

/**
 * I after a short step on which the limit moves in a straight line. Heated, metal that stood at the limit dissolves
 * from where the limit has risen past it; cooled, it stops where the limit falls below it.
 * @param before I at the start. @param gain what the clock adds on the step.
 * @param limitBefore, limitAfter squares of `solubleShare` at its ends.
 */
export function dissolveStep(before: number, gain: number, limitBefore: number, limitAfter: number): number {
  const roomBefore = limitBefore - before;
  if (limitAfter >= limitBefore) {
    if (limitAfter <= before) return before;
    const share = roomBefore >= 0 ? 1 : (limitAfter - before) / (limitAfter - limitBefore);
    return Math.min(before + share * gain, limitAfter);
  }
  if (roomBefore <= 0) return before;
  const roomAfter = limitAfter - before - gain;
  return roomAfter >= 0 ? before + gain : before + (gain * roomBefore) / (roomBefore - roomAfter);
}
