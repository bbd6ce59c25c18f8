import { requireNumber, TemperbookError } from '../../quantity';
import { requireThickness } from '../requireThickness';
import { metalInMm, type PlateMetal } from './weldInPlate';

/** The handbook constant √(2πe), printed as 4.13. */
const THIN = 4.13;
/** The handbook constant 2e, printed as 5.44. */
const THICK = 5.44;

/** A full-penetration weld as the handbooks describe it. */
export interface HandbookWeld {
  /** J/m³ K. */
  readonly volumetricHeatJPerM3K: number;
  readonly thicknessMm: number;
  /** Net heat per length, J/mm. */
  readonly netHeatJPerMm: number;
  /** Preheat or interpass temperature, °C. */
  readonly startC: number;
  /** Temperature of the fusion boundary, °C: the liquidus, as a rule. */
  readonly meltC: number;
}

/**
 * Peak temperature at a distance Y from the fusion boundary of a thin-plate weld, °C:
 *
 * 1/(Tp − T0) = 4.13 ρc d Y / H + 1/(Tm − T0)
 *
 * Limits of use: one full-penetration pass, thin plate, peak below melting. Anchored at the fusion boundary it stays
 * usable for aluminium, but reads 0.5 to 5 % of the rise low compared with `thinPlatePeak`, growing with
 * distance: HAZ widths from it are slightly too small.
 *
 * Source: C. M. Adams, Welding Journal 37 (1958) 210s–215s; AWS Welding Handbook, 8th ed. (1987) vol. 1 ch. 3.
 * Worked example (book): 720 J/mm on 5 mm steel from 25 °C, 1.5 mm from the boundary: 1184 °C (here 1184.2).
 * @throws TemperbookError for a negative distance or a start temperature not below melting.
 */
export function handbookPeakC(weld: HandbookWeld & { readonly fromFusionMm: number }): number {
  const { startC, meltC, perMm } = anchored(weld);
  const y = requireNumber(weld.fromFusionMm, 'fromFusionMm', { low: 0 });
  return startC + 1 / (perMm * y + 1 / (meltC - startC));
}

/**
 * Distance from the fusion boundary to where the peak is `boundaryC`, mm: the width of the zone hotter than that.
 *
 * Y = H / (4.13 ρc d) · [1/(Tx − T0) − 1/(Tm − T0)]
 *
 * Limits and source as `handbookPeakC`. Worked example (book): the weld above to 730 °C: 5.9 mm.
 * @throws TemperbookError for a boundary temperature not between start and melting.
 */
export function handbookHazWidthMm(weld: HandbookWeld & { readonly boundaryC: number }): number {
  const { startC, meltC, perMm } = anchored(weld);
  const { boundaryC } = weld;
  if (!(boundaryC > startC && boundaryC <= meltC))
    throw new TemperbookError('The edge of the zone must lie between start and melting temperature', {
      found: `${boundaryC} °C`,
      expected: `above ${startC} °C and up to ${meltC} °C`,
    });
  return (1 / (boundaryC - startC) - 1 / (meltC - startC)) / perMm;
}

/**
 * The thick-plate companion as it is usually printed, °C:
 *
 * 1/(Tp − T0) = (5.44 π k α / q v) · [2 + (v Y / 2α)²] + 1/(Tm − T0)
 *
 * TRAP: because of the 2 it does not return the melting temperature at the fusion boundary (Y = 0) but less. It is
 * here so that a hand calculation can be compared, and for nothing else: `thickPlatePeak` is exact at the same cost.
 *
 * Source: as `handbookPeakC`, from memory.
 */
export function handbookThickPeakC(
  weld: PlateMetal & {
    readonly netPowerW: number;
    readonly travelMmPerS: number;
    readonly startC: number;
    readonly meltC: number;
    readonly fromFusionMm: number;
  },
): number {
  const { k, alpha } = metalInMm(weld);
  const { startC, meltC } = melting(weld);
  const q = requireNumber(weld.netPowerW, 'netPowerW', { low: Number.MIN_VALUE });
  const v = requireNumber(weld.travelMmPerS, 'travelMmPerS', { low: Number.MIN_VALUE });
  const y = requireNumber(weld.fromFusionMm, 'fromFusionMm', { low: 0 });
  const bracket = 2 + ((v * y) / (2 * alpha)) ** 2;
  return startC + 1 / (((THICK * Math.PI * k * alpha) / (q * v)) * bracket + 1 / (meltC - startC));
}

function anchored(weld: HandbookWeld): { startC: number; meltC: number; perMm: number } {
  // The conductivity cancels in the anchored form, so any metal's will do for the check.
  const { rc } = metalInMm({ volumetricHeatJPerM3K: weld.volumetricHeatJPerM3K, conductivityWPerMK: 100 });
  const heat = requireNumber(weld.netHeatJPerMm, 'netHeatJPerMm', { low: Number.MIN_VALUE });
  return { ...melting(weld), perMm: (THIN * rc * requireThickness(weld.thicknessMm)) / heat };
}

function melting({ startC, meltC }: { startC: number; meltC: number }): { startC: number; meltC: number } {
  if (Number.isFinite(startC) && Number.isFinite(meltC) && startC < meltC) return { startC, meltC };
  throw new TemperbookError('The start temperature must lie below the melting temperature', {
    found: `${startC} °C and ${meltC} °C`,
  });
}
