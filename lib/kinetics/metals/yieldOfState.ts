import type { MetalState } from './metalState';
import type { PlausibleMetal } from './plausibleMetal';
import { curveLeft, delayedLeft } from './softening';

/** What became of the part: yield and ultimate strength kept, and the three parts of the original particles. */
export interface MetalOutcome {
  readonly yieldMPa: number;
  readonly yieldKept: number;
  /** `null`: not known for this alloy. */
  readonly ultimateKept: number | null;
  /** Shares of the hardening before the heat; they add up to 1. */
  readonly survivingFraction: number;
  readonly coarsenedFraction: number;
  readonly dissolvedFraction: number;
  /** Solute in solution that ageing can bring back, as a share of all particles the alloy can form. */
  readonly solubleFraction: number;
  /** Hardening formed since the start, over that of the start. */
  readonly gainedFraction: number;
}

/**
 * Room-temperature yield of a state if the part were cooled at once, MPa: floor + hardening + what solute gives, the sum
 * told at `MetalState`. Source: shares add as volume fractions do in O.R. Myhr, Ø. Grong, Acta Metall. Mater. 39 (1991)
 * 2693-2702, from memory.
 */
export function yieldOfState({ softeningPower }: PlausibleMetal, state: MetalState): number {
  const { floorMPa, hardeningMPa, solutionMPa, naturalMPa, original, dose, delay, dissolution } = state;
  const left = original * (1 - Math.sqrt(dissolution)) * delayedLeft(dose, softeningPower, delay);
  const { aged, agedDose, soluble, clustered } = state;
  const hardening = left + aged * curveLeft(agedDose, softeningPower);
  return floorMPa + hardeningMPa * hardening + soluble * (solutionMPa + naturalMPa * clustered);
}

/** What a state amounts to; `from` is the state before the heat. */
export function outcomeOfMetal(metal: PlausibleMetal, state: MetalState, from: MetalState): MetalOutcome {
  const yieldMPa = yieldOfState(metal, state);
  const yieldKept = yieldMPa / state.startYieldMPa;
  const { softeningPower: power } = metal;
  const dissolved = Math.sqrt(state.dissolution);
  const before = delayedLeft(from.dose, power, from.delay);
  const left = before > 0 ? Math.min(1, delayedLeft(state.dose, power, state.delay) / before) : 1;
  const hardeningBefore = from.original * before * (1 - Math.sqrt(from.dissolution));
  const gained = state.aged * curveLeft(state.agedDose, power);
  return {
    yieldMPa,
    yieldKept,
    ultimateKept: ultimateKept(metal, yieldKept),
    survivingFraction: (1 - dissolved) * left,
    coarsenedFraction: (1 - dissolved) * (1 - left),
    dissolvedFraction: dissolved,
    solubleFraction: state.soluble,
    gainedFraction: hardeningBefore > 0 ? gained / hardeningBefore : 0,
  };
}

/** Ultimate strength kept beside a yield kept; a gain of the yield adds nothing. */
function ultimateKept({ ultimateLoss }: PlausibleMetal, yieldKept: number): number | null {
  if (ultimateLoss === null) return null;
  const [a, b, c] = ultimateLoss;
  const loss = Math.max(0, 1 - yieldKept);
  return 1 - loss * (a + loss * (b + loss * c));
}
