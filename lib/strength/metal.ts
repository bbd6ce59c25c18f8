import { type AlloyCard, namedMetal } from '../alloy';
import { checkStartYield, type PlausibleMetal, plausibleMetals } from '../kinetics';
import type { LotWeights } from './lot';

/** What the metal is: an alloy in a temper, and what was measured of this part before the heat. */
export interface Metal {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  /** Yield measured on this part before the heat, MPa. */
  readonly measuredYieldMPa?: number;
  /** What coupons of the lot say (`lotCard`); several lots where casting and tube each have one. */
  readonly lots?: readonly LotWeights[];
}

/** The plausible metals behind a `Metal`, ready to be run. */
export interface MetalDraws {
  readonly measuredYieldMPa?: number;
  /** Member i goes with draw i of the record. */
  readonly metals: readonly PlausibleMetal[];
  readonly because: readonly string[];
}

/**
 * The first `count` plausible metals of an alloy and temper, in the order that all doors share.
 * @throws TemperbookError as `namedMetal` and `plausibleMetals`, and for a measured yield that the temper cannot have.
 */
export function drawMetals({ alloy, temper, measuredYieldMPa }: Metal, count: number): MetalDraws {
  const named = namedMetal(alloy, temper);
  const sample = plausibleMetals(named.card, named.temper, count);
  if (measuredYieldMPa !== undefined) checkStartYield(sample, measuredYieldMPa);
  return { measuredYieldMPa, metals: sample.metals, because: sample.because };
}
