import { requireNumber, TemperbookError } from '../../quantity';
import { requireThickness } from '../requireThickness';
import { metalInMm, type PlateMetal } from './weldInPlate';

/** A weld of which the cooling on its centre line is asked. */
export interface CoolingWeld extends PlateMetal {
  /** Net heat per length, J/mm. */
  readonly netHeatJPerMm: number;
  /** Preheat or interpass temperature, °C. */
  readonly startC: number;
  readonly thicknessMm: number;
}

/** Cooling time by both limits of heat flow. */
export interface CoolingTime {
  /** Through-thickness flow (thick plate), s. */
  readonly thickS: number;
  /** Sideways flow (thin plate), s. */
  readonly thinS: number;
  /** Thickness where both agree, mm. */
  readonly transitionMm: number;
  /** The longer one, which applies: 'thin' below the transition thickness, 'thick' above. */
  readonly applies: 'thin' | 'thick';
}

/**
 * Time to cool from T1 to T2 on the weld line behind a fast arc:
 *
 * thick H/(2πk) · [1/(T2−T0) − 1/(T1−T0)];  thin H²/(4π k ρc d²) · [1/(T2−T0)² − 1/(T1−T0)²];
 * transition thickness √(H/(2ρc) · [1/(T2−T0) + 1/(T1−T0)])
 *
 * Limits of use: the fast-weld forms (see `fastThinRise`), an endless plate, no surface loss. A small part that has
 * heated up bodily cools far slower.
 *
 * Source: D. Rosenthal, Welding Journal 20 (1941) 220s–234s. Worked example: 300 J/mm on 4 mm of 6061 from 20 °C,
 * 400 to 200 °C: thin 26.52 s applies (thick 0.836 s, transition 22.5 mm).
 * @throws TemperbookError unless start < T2 < T1.
 */
export function coolingTime(
  weld: CoolingWeld & { readonly fromC: number; readonly toC: number },
): CoolingTime {
  const { k, rc } = metalInMm(weld);
  const { startC, fromC, toC } = weld;
  const heat = requireNumber(weld.netHeatJPerMm, 'netHeatJPerMm', { low: Number.MIN_VALUE });
  const d = requireThickness(weld.thicknessMm);
  if (!(startC < toC && toC < fromC && Number.isFinite(fromC - startC)))
    throw new TemperbookError('Cooling must go from a hotter to a colder temperature, both above the start', {
      found: `${fromC} to ${toC} °C from a start at ${startC} °C`,
    });
  const later = 1 / (toC - startC);
  const earlier = 1 / (fromC - startC);
  const thickS = (heat / (2 * Math.PI * k)) * (later - earlier);
  const thinS = ((heat / d) ** 2 / (4 * Math.PI * k * rc)) * (later ** 2 - earlier ** 2);
  return {
    thickS,
    thinS,
    transitionMm: Math.sqrt((heat / (2 * rc)) * (later + earlier)),
    applies: thinS > thickS ? 'thin' : 'thick',
  };
}
