import { vickersOfYield } from '../kinetics';
import { type Judged, judged } from '../quantity';

/** Vickers hardness of wrought metal from its yield with the yield's band; see `vickersOfYield`. */
export function vickersHardness(yieldMPa: Judged): Judged {
  return judged(
    vickersOfYield(yieldMPa.nominal),
    [vickersOfYield(yieldMPa.low), vickersOfYield(yieldMPa.high)],
    'HV',
    ['HV = 0.33 × yield + 16; the scatter of hardness readings is not in the band.', ...yieldMPa.because],
  );
}
