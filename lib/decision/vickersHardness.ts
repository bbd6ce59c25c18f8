import { type Judged, judged } from '../quantity';

/**
 * Vickers hardness of wrought Al-Mg-Si from its yield: HV = 0.33 Rp0.2 + 16, Rp0.2 in MPa. Not for castings, whose
 * eutectic silicon adds hardness of its own.
 *
 * Source: O.R. Myhr, Ø. Grong, S.J. Andersen, Acta Mater. 49 (2001) 65-75, from memory; its inverse, rounded, is
 * used for the heat-affected zone of 6082. Example: 276 MPa gives 107 HV.
 */
export function vickersHardness(kept: Judged, startYieldMPa: number): Judged {
  const hv = (fraction: number): number => vickersOfYield(fraction * startYieldMPa);
  return judged(hv(kept.nominal), [hv(kept.low), hv(kept.high)], 'HV', [
    'HV = 0.33 × yield + 16; the scatter of hardness readings is not in the band.',
    ...kept.because,
  ]);
}

export const vickersOfYield = (yieldMPa: number): number => 0.33 * yieldMPa + 16;
