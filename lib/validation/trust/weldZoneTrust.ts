import { loadAlloy } from '../../alloy';
import { isothermal } from '../../history';
import { weldCycle } from '../../kinetics';
import type { Judged } from '../../quantity';
import { hazKnockDown } from '../../section';
import { ROUTINE_DRAWS, strengthAfter } from '../../strength';

/** The weakest metal beside a weld: what the kit says of it and what the code gives. */
export interface WeldZoneRow {
  readonly alloy: string;
  /** Peak temperature of the weakest place, °C. */
  readonly peakC: number;
  /** Yield there after the days the code waits, MPa. */
  readonly yieldMPa: Judged;
  /** Characteristic proof stress of the heat-affected zone, MPa. */
  readonly codeMPa: number;
  readonly insideBand: boolean;
  readonly source: string;
}

/** A pass as the demo's: two seconds within 20 °C of the peak; the weakest place hardly depends on it. */
const NEAR_PEAK_S = 2;
const FROM_C = 250;
const STEP_C = 5;
const DAY_S = 86_400;
const SHELF_C = 20;

/**
 * The soft zone of a MIG-welded T6 profile against EN 1999-1-1 table 3.2: `strengthAfter` over all peaks from
 * 250 °C to melting, with natural ageing for the days the code waits. The code gives a characteristic value, the
 * model one for a typical part. This code gives none for a casting.
 */
export function weldZoneTrust(): WeldZoneRow[] {
  return ['6061', '6063', '6082'].flatMap((alloy) => {
    const code = hazKnockDown({ alloy, temper: 'T6', form: 'profile', process: 'MIG', thicknessMm: 4 });
    if (!code.supported) return [];
    const { peakC, yieldMPa } = weakestPlace(alloy, code.holdsAfterDays * DAY_S);
    return [
      {
        alloy,
        peakC,
        yieldMPa,
        codeMPa: code.proofHazMPa,
        insideBand: yieldMPa.low <= code.proofHazMPa && code.proofHazMPa <= yieldMPa.high,
        source: code.source,
      },
    ];
  });
}

function weakestPlace(alloy: string, restS: number): { readonly peakC: number; readonly yieldMPa: Judged } {
  const card = loadAlloy(alloy);
  const count = Math.floor((card.thermal.solidusC.value - FROM_C) / STEP_C);
  const places = Array.from({ length: count }, (_, k) => {
    const peakC = FROM_C + k * STEP_C;
    const { yieldMPa } = strengthAfter(
      isothermal(SHELF_C, restS),
      { alloy: card, temper: 'T6' },
      { earlier: [weldCycle({ peakC, nearPeakS: NEAR_PEAK_S })], draws: ROUTINE_DRAWS, endOnly: true },
    );
    return { peakC, yieldMPa };
  });
  return places.reduce((weakest, place) =>
    place.yieldMPa.nominal < weakest.yieldMPa.nominal ? place : weakest,
  );
}
