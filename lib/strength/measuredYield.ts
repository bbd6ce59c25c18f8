import type { AlloyCard } from '../alloy';
import { yieldOfVickers } from '../kinetics';
import { TemperbookError } from '../quantity';

/** What was measured of the part before the heat; one of the two. */
export interface MeasuredBefore {
  readonly measuredYieldMPa?: number;
  /** Vickers, wrought metal only (`yieldOfVickers`). */
  readonly measuredHardnessHV?: number;
}

/**
 * The yield measured before welding, MPa, whichever way it was measured; none when nothing was.
 * @throws TemperbookError when both are given, and as `yieldOfVickers`.
 */
export function measuredYield(
  { measuredYieldMPa, measuredHardnessHV }: MeasuredBefore,
  card: AlloyCard,
): number | undefined {
  if (measuredHardnessHV === undefined) return measuredYieldMPa;
  if (measuredYieldMPa === undefined) return yieldOfVickers(measuredHardnessHV, card);
  throw new TemperbookError('The start is measured twice', {
    found: `${measuredYieldMPa} MPa and ${measuredHardnessHV} HV`,
    expected: 'a yield or a hardness',
    remedy: 'Keep the yield: it says more',
  });
}

/** What was measured of one channel: its own measurement, of either kind, replaces that of the whole log. */
export function measuredOf(all: MeasuredBefore, own: MeasuredBefore = {}): MeasuredBefore {
  return own.measuredYieldMPa === undefined && own.measuredHardnessHV === undefined ? all : own;
}
