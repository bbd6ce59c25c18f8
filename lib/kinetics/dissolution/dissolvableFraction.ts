import type { AlloyCard } from '../../alloy';
import { celsiusToKelvin, GAS_CONSTANT } from '../../quantity';
import { publishedParameters as p } from '../precipitate/parameters';

/** Mean radius of the hardening particles of an aged temper, m: 5 nm in the precipitate model. */
const AGED_RADIUS_M = 5e-9;

/**
 * The most that can dissolve at a temperature, as a fraction of all hardening particles, 0 … 1: the magnesium
 * the matrix holds in equilibrium with particles of 5 nm, Ce exp(2 γ Vm/(r R T)) with
 * Ce = Cs exp(−Qs/RT), over the alloy's own. The iso-kinetic rule has no such ceiling and would let any long
 * soak dissolve everything.
 *
 * Source: solvus and Gibbs–Thomson equation of the precipitate model, published constants. Silicon in excess
 * lowers it, so for the 356 family it is an upper estimate. Against measurement: 6063 welds dissolve all their
 * particles above a peak of 402 °C (Y.S. Sato et
 * al., Metall. Mater. Trans. A 30 (1999)), this gives 0.62 there and 1 from 455 °C.
 * @example dissolvableFraction(400, loadAlloy('6061')) // 0.44
 * @example dissolvableFraction(300, loadAlloy('6061')) // 0.14
 */
export function dissolvableFraction(tempC: number, { matrixWtPct }: AlloyCard): number {
  const rt = GAS_CONSTANT * celsiusToKelvin(tempC);
  const smallParticles = (2 * p.interfaceJPerM2 * p.molarVolumeM3) / AGED_RADIUS_M;
  const dissolvedWtPct = p.solvusWtPct * Math.exp((smallParticles - p.solvusJPerMol) / rt);
  return Math.min(1, dissolvedWtPct / matrixWtPct.Mg);
}
