import { requireNumber, TemperbookError } from '../../quantity';
import { metalInMm, type PlateMetal } from './weldInPlate';

/**
 * Time the weld metal takes to freeze, s: St = L H / (2π k ρc (Tm − T0)²), L the heat of fusion per volume.
 *
 * Limits of use: thick plate, fast weld; an order of magnitude for the dendrite spacing, not for the pool's length.
 *
 * Source: C. M. Adams in AWS Welding Handbook, 8th ed. (1987) vol. 1 ch. 3 (form from memory).
 * @throws TemperbookError unless the start lies below melting.
 */
export function solidificationTime({
  netHeatJPerMm,
  fusionHeatJPerMm3,
  startC,
  meltC,
  ...metal
}: PlateMetal & {
  readonly netHeatJPerMm: number;
  /** J/mm³: heat of fusion times density; aluminium about 1.05, steel about 2. */
  readonly fusionHeatJPerMm3: number;
  readonly startC: number;
  readonly meltC: number;
}): number {
  const { k, rc } = metalInMm(metal);
  const heat = requireNumber(netHeatJPerMm, 'netHeatJPerMm', { low: 0 });
  const fusion = requireNumber(fusionHeatJPerMm3, 'fusionHeatJPerMm3', { low: 0, high: 20 });
  if (!(startC < meltC && Number.isFinite(meltC - startC)))
    throw new TemperbookError('The start temperature must lie below the melting temperature', {
      found: `${startC} °C and ${meltC} °C`,
    });
  return (fusion * heat) / (2 * Math.PI * k * rc * (meltC - startC) ** 2);
}
