import type { AgeingConstants } from '../../alloy';
import { celsiusToKelvin } from '../../quantity';

/** The constants of the ageing curve as plain numbers. */
export interface AgeingShape {
  readonly activationEnergyJPerMol: number;
  readonly referenceK: number;
  readonly peakTimeS: number;
  readonly precipitationRatio: number;
  readonly maxStrengthMPa: number;
  readonly solvusEnthalpyJPerMol: number;
  readonly solvusK: number;
  readonly intrinsicMPa: number;
  readonly quenchedSolutionMPa: number;
  readonly agedSolutionMPa: number;
}

/** The nominal values of a card's ageing constants. */
export function ageingShape(c: AgeingConstants): AgeingShape {
  return {
    activationEnergyJPerMol: c.activationEnergyJPerMol.value,
    referenceK: celsiusToKelvin(c.referenceC),
    peakTimeS: c.peakTimeS.value,
    precipitationRatio: c.precipitationRatio.value,
    maxStrengthMPa: c.maxStrengthMPa.value,
    solvusEnthalpyJPerMol: c.solvusEnthalpyJPerMol.value,
    solvusK: celsiusToKelvin(c.solvusC.value),
    intrinsicMPa: c.intrinsicMPa.value,
    quenchedSolutionMPa: c.quenchedSolutionMPa.value,
    agedSolutionMPa: c.agedSolutionMPa.value,
  };
}
