import { formatDuration, type Judged, judged, requireNumber } from '../quantity';
import { resolveAlloy } from './resolveAlloy';
import type { AlloyLike } from './temperModel';

/**
 * Yield regained at room temperature by solute that heat had dissolved, MPa:
 *
 *   Δσ = Δσ_∞ · X · (1 − exp(−t/τ)),  τ about 7 days near 20 °C.
 *
 * The shape is this kit's own guess, not from a paper: it is linear in the dissolved fraction X and
 * levels off where hardness was seen to (about 25 days for 6060). Coarsened particles regain nothing, so X must
 * be the dissolved part only (`softeningModel`). Δσ_∞ and τ with their wide bands are on the alloy card. Codes
 * let welds be rated after 3 days at 10 °C or more (6xxx); colder is slower and not modelled.
 * @param dissolved dissolved fraction 0 … 1, or its band as `combinedSoftening` gives it.
 * @param restS time since the last heat, s, at 10 to 30 °C.
 * @throws TemperbookError for a bare composition, a fraction outside 0 … 1 or a negative time.
 */
export function naturalAgeing(
  dissolved: number | Pick<Judged, 'nominal' | 'low' | 'high'>,
  restS: number,
  alloy: AlloyLike,
): Judged {
  const { gainMPa, timeConstantS } = resolveAlloy(alloy, 'natural ageing rule').naturalAgeing;
  const x =
    typeof dissolved === 'number' ? { nominal: dissolved, low: dissolved, high: dissolved } : dissolved;
  for (const part of [x.nominal, x.low, x.high])
    requireNumber(part, 'The dissolved fraction', { low: 0, high: 1 });
  requireNumber(restS, 'The time at room temperature in s', { low: 0 });
  const gain = (finalMPa: number, part: number, tau: number): number =>
    -finalMPa * part * Math.expm1(-restS / tau);
  return judged(
    gain(gainMPa.value, x.nominal, timeConstantS.value),
    [gain(gainMPa.low, x.low, timeConstantS.high), gain(gainMPa.high, x.high, timeConstantS.low)],
    'MPa',
    [
      `After ${formatDuration(restS)} at room temperature; only dissolved solute regains strength.`,
      'The shape of the rise is an assumption of this kit; its size spans what measurements disagree about.',
    ],
  );
}
