import { type ThermalHistory, thermalHistory } from '../../history';
import { requireNumber } from '../../quantity';
import { type MediumPlateWeld, mediumPlateRise } from './mediumPlateRise';
import { thickPlateRise } from './thickPlateRise';
import { type ThinPlateWeld, thinPlateRise } from './thinPlateRise';
import type { WeldInPlate } from './weldInPlate';

/** When the arc passes a point, and from what temperature. */
export interface PassingArc {
  /** Preheat or interpass temperature of the whole plate, °C. */
  readonly startC: number;
  /** Times wanted, increasing, s. */
  readonly timeS: ArrayLike<number>;
  /** When the arc is abreast of the point, s; default 0. */
  readonly abreastS?: number;
}

/** Temperature of a point beside a thin-plate weld as the arc passes; formula and limits of `thinPlateRise`. */
export function thinPlateHistory(
  weld: ThinPlateWeld & PassingArc & { readonly acrossMm: number },
): ThermalHistory {
  return asArcPasses(weld, weld, (alongMm) => thinPlateRise({ ...weld, alongMm }));
}

/** Temperature of a point beside or below a thick-plate weld; formula and limits of `thickPlateRise`. */
export function thickPlateHistory(
  weld: WeldInPlate & PassingArc & { readonly acrossMm: number; readonly depthMm: number },
): ThermalHistory {
  return asArcPasses(weld, weld, (alongMm) => thickPlateRise({ ...weld, alongMm }));
}

/** Temperature of a point in a plate of any thickness; formula and limits of `mediumPlateRise`. */
export function mediumPlateHistory(
  weld: MediumPlateWeld & PassingArc & { readonly acrossMm: number; readonly depthMm: number },
): ThermalHistory {
  return asArcPasses(weld, weld, (alongMm) => mediumPlateRise({ ...weld, alongMm }));
}

/** The steady field dragged past the point: at time t the point lies v (abreast − t) ahead of the arc. */
function asArcPasses(
  { travelMmPerS }: WeldInPlate,
  { startC, timeS, abreastS = 0 }: PassingArc,
  riseAt: (alongMm: number) => number,
): ThermalHistory {
  requireNumber(startC, 'startC', { low: -273.15 });
  const times = Float64Array.from(timeS);
  return thermalHistory(
    times,
    times.map((t) => startC + riseAt(travelMmPerS * (abreastS - t))),
  );
}
