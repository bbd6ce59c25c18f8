import { requireNumber } from '../../quantity';
import { requireThickness } from '../requireThickness';
import type { CoolingTime } from './coolingTime';

/** Joint shape for `steelCoolingTime85`: run on plate 1 and 1; between butt runs 0.9 and 0.9. */
export interface JointShape {
  /** Factor F3 of through-thickness flow, default 1. */
  readonly thickFactor?: number;
  /** Factor F2 of sideways flow, default 1. */
  readonly thinFactor?: number;
}

/**
 * Cooling time of unalloyed steel from 800 to 500 °C, s, in the form of EN 1011-2. For checking `coolingTime` and a
 * shop's steel procedures against a published formula; it knows nothing of aluminium.
 *
 * thick (6700 − 5 T0) Q [1/(500−T0) − 1/(800−T0)] F3;
 * thin (4300 − 4.3 T0) 10⁵ Q²/d² [1/(500−T0)² − 1/(800−T0)²] F2;  Q in kJ/mm, d in mm. The longer one applies.
 *
 * Source: EN 1011-2:2001 annex D, seen as formulas 3.1 and 3.2 of a steel maker's welding handbook (2nd ed.).
 * Worked example: 1 kJ/mm on 10 mm from 20 °C: thin, 11.36 s.
 * @throws TemperbookError for a start outside −50…450 °C, or heat or thickness not above zero.
 */
export function steelCoolingTime85({
  netHeatKJPerMm,
  startC,
  thicknessMm,
  thickFactor = 1,
  thinFactor = 1,
}: {
  readonly netHeatKJPerMm: number;
  readonly startC: number;
  readonly thicknessMm: number;
} & JointShape): CoolingTime {
  const heat = requireNumber(netHeatKJPerMm, 'netHeatKJPerMm', { low: Number.MIN_VALUE });
  requireNumber(startC, 'startC', { low: -50, high: 450 });
  const d = requireThickness(thicknessMm);
  const [f3, f2] = [
    requireNumber(thickFactor, 'thickFactor', { low: 0.1, high: 1.5 }),
    requireNumber(thinFactor, 'thinFactor', { low: 0.1, high: 1.5 }),
  ];
  const later = 1 / (500 - startC);
  const earlier = 1 / (800 - startC);
  const thickS = (6700 - 5 * startC) * heat * (later - earlier) * f3;
  const thinTimesD2 = (4300 - 4.3 * startC) * 1e5 * heat ** 2 * (later ** 2 - earlier ** 2) * f2;
  const thinS = thinTimesD2 / d ** 2;
  return {
    thickS,
    thinS,
    transitionMm: Math.sqrt(thinTimesD2 / thickS),
    applies: thinS > thickS ? 'thin' : 'thick',
  };
}
