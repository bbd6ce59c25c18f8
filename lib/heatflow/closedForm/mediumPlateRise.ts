import { requireNumber } from '../../quantity';
import { requireThickness } from '../requireThickness';
import { type ThickPlatePoint, thickPlateRise } from './thickPlateRise';
import type { WeldInPlate } from './weldInPlate';

/** A weld on a plate of a thickness that is neither thin nor thick. */
export interface MediumPlateWeld extends WeldInPlate {
  readonly thicknessMm: number;
}

/**
 * Steady temperature rise in a plate of any thickness, arc on its surface, both faces insulated, K: the thick-plate
 * source and its mirror images in the two faces, at depths 2 i d for i = ±1, ±2, … Images are added until a pair
 * gives less than 1e-12 of the sum. Beside the arc that takes at most 28 α/(v d) of them, for pair i holds no more
 * than exp(−i v d/α), and what is left out is at most α/(v d) times the last. Travel below 0.01 mm/s is refused, so
 * that 4 mm of aluminium need at most 50 000 pairs there, a third of a second.
 *
 * Limits of use: as for `thinPlateRise`, but for any thickness. With growing distance it becomes the thin-plate
 * form, near the arc the thick one.
 *
 * Source: image construction after O. Grong, Metallurgical Modelling of Welding, 2nd ed. (1997), section 1.10.4.
 * Worked example: 3000 W at 5 mm/s on 12 mm of 6061, 20 mm behind and 10 mm beside, at the surface: 275.158 K.
 * @throws TemperbookError as `thickPlateRise`, and for a depth below the plate.
 */
export function mediumPlateRise(weld: MediumPlateWeld & ThickPlatePoint): number {
  const d = requireThickness(weld.thicknessMm);
  const depth = requireNumber(weld.depthMm, 'depthMm', { low: 0, high: d });
  const image = (i: number) => thickPlateRise({ ...weld, depthMm: Math.abs(depth - 2 * i * d) });
  let sum = image(0);
  for (let i = 1; ; i++) {
    const pair = image(i) + image(-i);
    sum += pair;
    if (pair <= 1e-12 * sum) return sum;
  }
}
