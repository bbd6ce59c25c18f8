import type { AlloyCard } from '../../alloy';
import { type ArrheniusClock, equivalentTime } from '../../exposure';
import type { ThermalHistory } from '../../history';
import { resolveAlloy } from '../resolveAlloy';
import type { AlloyLike } from '../temperModel';

/**
 * Fraction of the hardening particles a history dissolves, 0 … 1, by the iso-kinetic rule:
 *
 *   X = min(1, Iⁿ),  I = ∫ dt / t₁*(T),  t₁*(T) = t_r1 exp[((Qs/n + Qd)/R)(1/T − 1/T_r1)]
 *
 * t₁* is an Arrhenius time with Q = Qs/n + Qd (190 kJ/mol), so I is the equivalent time at T_r1 (375 °C) over
 * t_r1 (600 s). Constants from the alloy card; t_r1 is poorly known, see its band there.
 *
 * Range: weld-like cycles with peaks of about 300 to 550 °C. It knows no coarsening: 1 h at 250 °C dissolves
 * 4 % by this rule while a T6 part loses far more by over-ageing. Use `softeningModel` for both.
 *
 * Source: O.R. Myhr, Ø. Grong, Acta Metall. Mater. 39 (1991) 2693-2702, for 6082-T6; constants from memory.
 *
 * @throws TemperbookError for a bare composition or a history that breaks its promises.
 * @example dissolvedFraction(isothermal(350, 60), '6061') // 0.1559
 * @example dissolvedFraction(isothermal(450, 5), '6061') // 0.5681
 */
export function dissolvedFraction(history: ThermalHistory, alloy: AlloyLike): number {
  const card = resolveAlloy(alloy, 'dissolution rule');
  const exposureS = equivalentTime(history, dissolutionClock(card));
  return dissolvedAfter(exposureS, card.dissolution.referenceTimeS.value, card.dissolution.exponent.value);
}

/** The Arrhenius clock of the dissolution rule: Q = Qs/n + Qd at the reference temperature of t_r1. */
export function dissolutionClock({ dissolution }: AlloyCard): ArrheniusClock {
  const { solvusEnthalpyJPerMol: qs, exponent, diffusionEnergyJPerMol: qd, referenceC } = dissolution;
  return {
    activationEnergyJPerMol: qs.value / exponent.value + qd.value,
    referenceC: referenceC.value,
  };
}

/** X = min(1, (t/t_r1)ⁿ) from the equivalent time on `dissolutionClock`, s. */
export const dissolvedAfter = (exposureS: number, referenceTimeS: number, exponent: number): number =>
  Math.min(1, (exposureS / referenceTimeS) ** exponent);
