import { requireNumber, TemperbookError } from '../../quantity';
import { requireThickness } from '../requireThickness';
import type { CoolingWeld } from './coolingTime';
import { metalInMm } from './weldInPlate';

/** Cooling rate on the weld line, and which formula gave it. */
export interface CoolingRate {
  /** K/s, positive. */
  readonly rateKPerS: number;
  readonly thickKPerS: number;
  readonly thinKPerS: number;
  /** τ of `relativePlateThickness`. */
  readonly relativeThickness: number;
  readonly applies: 'thin' | 'thick';
  /** True between 0.6 and 0.9, where the division at 0.75 may be 15 % off (from memory). */
  readonly between: boolean;
}

/**
 * Relative plate thickness τ = d √(ρc (Tc − T0) / H): thick plate above 0.9, thin below 0.6, between them divide at
 * 0.75. Source: AWS Welding Handbook, 8th ed. (1987) vol. 1 ch. 3; the three limits also on a public lecture page.
 */
export function relativePlateThickness(weld: CoolingWeld & { readonly atC: number }): number {
  const { rc } = metalInMm(weld);
  const heat = requireNumber(weld.netHeatJPerMm, 'netHeatJPerMm', { low: Number.MIN_VALUE });
  const { startC, atC } = weld;
  if (!(startC < atC && Number.isFinite(atC - startC)))
    throw new TemperbookError('The temperature of the cooling rate must lie above the start temperature', {
      found: `${atC} °C above a start at ${startC} °C`,
    });
  return requireThickness(weld.thicknessMm) * Math.sqrt((rc * (atC - startC)) / heat);
}

/**
 * Cooling rate on the weld line as it passes Tc, K/s:
 *
 * thick 2πk (Tc − T0)² / H;  thin 2πk ρc (d/H)² (Tc − T0)³
 *
 * Limits of use as `coolingTime`. Source: C. M. Adams, Welding Journal 37 (1958) 210s–215s. Worked example: 6 mm
 * steel from 30 °C, 750 J/mm, at 550 °C: τ = 0.331, thin, 6.97 K/s.
 * @throws TemperbookError unless Tc lies above the start.
 */
export function weldCoolingRate(weld: CoolingWeld & { readonly atC: number }): CoolingRate {
  const relativeThickness = relativePlateThickness(weld);
  const { k, rc } = metalInMm(weld);
  const above = weld.atC - weld.startC;
  const thickKPerS = (2 * Math.PI * k * above ** 2) / weld.netHeatJPerMm;
  const thinKPerS = 2 * Math.PI * k * rc * (weld.thicknessMm / weld.netHeatJPerMm) ** 2 * above ** 3;
  const applies = relativeThickness > 0.75 ? 'thick' : 'thin';
  return {
    rateKPerS: applies === 'thick' ? thickKPerS : thinKPerS,
    thickKPerS,
    thinKPerS,
    relativeThickness,
    applies,
    between: relativeThickness >= 0.6 && relativeThickness <= 0.9,
  };
}
