import type { AlloyCard } from '../../alloy';
import { cumulativeEquivalentTime } from '../../exposure';
import type { ThermalHistory } from '../../history';

/** Accumulated exposure on the three Arrhenius clocks: nominal activation energy and its bounds, s. */
export interface OverageingDose {
  readonly nominal: number;
  readonly lowEnergy: number;
  readonly highEnergy: number;
}

/** Nothing seen yet. */
export const NO_DOSE: OverageingDose = { nominal: 0, lowEnergy: 0, highEnergy: 0 };

/** The three running doses of a history at the reference temperature of the alloy's over-ageing curve. */
export function runningDoses(
  history: ThermalHistory,
  { activationEnergyJPerMol: q, referenceC }: AlloyCard['overageing'],
): Readonly<Record<keyof OverageingDose, Float64Array>> {
  const clock = (activationEnergyJPerMol: number): Float64Array =>
    cumulativeEquivalentTime(history, { activationEnergyJPerMol, referenceC });
  return { nominal: clock(q.value), lowEnergy: clock(q.low), highEnergy: clock(q.high) };
}
