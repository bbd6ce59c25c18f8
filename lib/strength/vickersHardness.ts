import { vickersOfYield } from '../kinetics';
import { type Judged, judged } from '../quantity';

/** Vickers hardness of wrought metal from the yield it kept, with the band of the yield; see `vickersOfYield`. */
export function vickersHardness(kept: Judged, startYieldMPa: number): Judged {
  const hv = (fraction: number): number => vickersOfYield(fraction * startYieldMPa);
  return judged(hv(kept.nominal), [hv(kept.low), hv(kept.high)], 'HV', [
    'HV = 0.33 × yield + 16; the scatter of hardness readings is not in the band.',
    ...kept.because,
  ]);
}
