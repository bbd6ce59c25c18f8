import { loadAlloy } from '../../alloy';
import { asExposure, type Exposure } from '../../exposure';
import type { ThermalHistory } from '../../history';
import { afterNewTreatment } from '../../planning';
import type { Judged } from '../../quantity';
import { ROUTINE_DRAWS, strengthAfter, type VerdictWord } from '../../strength';

/** Heat still to come: none, a history, or solution, quench and age made new. */
export type FurtherHeat = 'none' | ThermalHistory | 'new treatment';

/** Metal whose strength is asked for, and what it saw. */
export interface HeatedMetal {
  readonly alloy: string;
  readonly temper: string;
  readonly exposure: Exposure | ThermalHistory;
  /** Heats before it, in their order. */
  readonly earlier?: readonly (Exposure | ThermalHistory)[];
  /** Yield measured before all heat, MPa. */
  readonly measuredYieldMPa?: number;
}

/** Strength of a place after further heat. */
export interface PlaceStrength {
  readonly yieldMPa: Judged;
  /** Of the yield before the first heat. */
  readonly yieldKeptFraction: Judged;
  /** Chance of no more loss than the allowance; null where the record is blind. */
  readonly chanceKept: number | null;
  readonly word: VerdictWord;
}

/**
 * Strength after what the metal saw and what is still to come: `strengthAfter` going on from the weld, or
 * `afterNewTreatment`, on the draws of `considerRecovery`.
 * @throws TemperbookError as those.
 */
export function strengthOfPlace(
  { alloy, temper, exposure, earlier = [], measuredYieldMPa }: HeatedMetal,
  further: FurtherHeat,
  allowanceFraction?: number,
): PlaceStrength {
  const metal = {
    alloy: loadAlloy(alloy),
    temper,
    ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }),
  };
  const options = {
    endOnly: true,
    draws: ROUTINE_DRAWS,
    ...(allowanceFraction === undefined ? {} : { allowanceFraction }),
  };
  const seen = asExposure(exposure);
  if (further === 'new treatment') {
    const before = strengthAfter(seen, metal, { ...options, earlier });
    return afterNewTreatment(
      metal.alloy,
      temper,
      before,
      allowanceFraction === undefined ? {} : { allowanceFraction },
    );
  }
  return further === 'none'
    ? strengthAfter(seen, metal, { ...options, earlier })
    : strengthAfter(further, metal, { ...options, earlier: [...earlier, seen] });
}
