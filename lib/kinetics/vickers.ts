import type { AlloyCard } from '../alloy';
import { requireNumber, TemperbookError } from '../quantity';

/**
 * Vickers hardness of wrought Al-Mg-Si from its yield: HV = 0.33 Rp0.2 + 16, Rp0.2 in MPa. Castings read higher:
 * their
 * eutectic silicon adds hardness of its own.
 *
 * Source: O.R. Myhr, Ø. Grong, S.J. Andersen, Acta Mater. 49 (2001) 65-75, from memory; its inverse, rounded, is
 * used for the heat-affected zone of 6082.
 * @example vickersOfYield(276) // 107
 */
export const vickersOfYield = (yieldMPa: number): number => 0.33 * yieldMPa + 16;

/**
 * Yield of wrought Al-Mg-Si from its Vickers hardness, MPa: (HV − 16)/0.33, the inverse of `vickersOfYield`. One
 * reading is good to about 5 %, which is 15 MPa at 100 HV: give the mean of several. Range 40 to 200 HV.
 * @throws TemperbookError for a casting, whose hardness holds its silicon too, and for a hardness out of range.
 */
export function yieldOfVickers(hardnessHV: number, { designation, family }: AlloyCard): number {
  if (family !== 'Al-Mg-Si wrought')
    throw new TemperbookError(`No relation turns the hardness of ${designation} into a yield`, {
      found: `${hardnessHV} HV on a casting`,
      expected: 'a yield measured on a bar of the casting, in MPa',
      remedy: 'Pull a bar cast with the part, or compare its hardness before and after welding only',
    });
  return (requireNumber(hardnessHV, 'The measured hardness in HV', { low: 40, high: 200 }) - 16) / 0.33;
}
