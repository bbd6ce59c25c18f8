import { thinPlateHistory } from '../../lib/heatflow';
import type { ThermalHistory } from '../../lib/history';

const timeS = Float64Array.from({ length: 1000 }, (_, i) => -10 + i * 0.2);

/** A pass beside a place in a thin plate of 6 mm, from 10 s before the arc goes by to 190 s after. */
export const thinPlate = (acrossMm: number, netPowerW = 1200): ThermalHistory =>
  thinPlateHistory({
    netPowerW,
    travelMmPerS: 4,
    thicknessMm: 6,
    conductivityWPerMK: 151,
    volumetricHeatJPerM3K: 2.4e6,
    acrossMm,
    startC: 20,
    timeS,
  });
