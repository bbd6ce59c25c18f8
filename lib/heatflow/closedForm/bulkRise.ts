import { requireNumber } from '../../quantity';

/**
 * How much a whole part warms once its weld heat has spread, K: ΔT = Q / (m c), no loss on the way.
 *
 * The first number to look at for a small part: where it rivals the local peak, no formula for an endless plate
 * holds. Worked example: one 100 mm pass at 300 J/mm into 100 × 100 × 4 mm of 6061 (0.108 kg, 896 J/kg K): 310 K.
 * Source: the definition of specific heat.
 * @throws TemperbookError for a mass or specific heat that is not above zero.
 */
export function bulkRise({
  netHeatJ,
  massKg,
  specificHeatJPerKgK,
}: {
  readonly netHeatJ: number;
  readonly massKg: number;
  readonly specificHeatJPerKgK: number;
}): number {
  return (
    requireNumber(netHeatJ, 'netHeatJ') /
    (requireNumber(massKg, 'massKg', { low: Number.MIN_VALUE }) *
      requireNumber(specificHeatJPerKgK, 'specificHeatJPerKgK', { low: 50, high: 20_000 }))
  );
}
