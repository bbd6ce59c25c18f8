import { TemperbookError } from '../../quantity';

/** Metal of the plate; constants, as every closed form needs them. */
export interface PlateMetal {
  /** W/m K. */
  readonly conductivityWPerMK: number;
  /** Density times specific heat, J/m³ K; aluminium about 2.4e6, steel 4.4e6. */
  readonly volumetricHeatJPerM3K: number;
}

/** The moving arc and the metal under it. */
export interface WeldInPlate extends PlateMetal {
  /** Heat that enters the plate, W: efficiency × volts × amps. */
  readonly netPowerW: number;
  readonly travelMmPerS: number;
}

/** Metal in the units the formulas are written in. */
export interface MetalInMm {
  /** W/mm K. */
  readonly k: number;
  /** J/mm³ K. */
  readonly rc: number;
  /** Diffusivity, mm²/s. */
  readonly alpha: number;
}

/**
 * Checks the metal and converts it to mm.
 * @throws TemperbookError for a conductivity outside 1–500 W/m K or a volumetric heat outside 0.5–6 MJ/m³ K: no
 * structural metal lies there, a number in other units does.
 */
export function metalInMm({ conductivityWPerMK, volumetricHeatJPerM3K }: PlateMetal): MetalInMm {
  checkMetal(conductivityWPerMK, 'conductivityWPerMK', 1, 500, 'aluminium alloys have 100 to 240');
  checkMetal(volumetricHeatJPerM3K, 'volumetricHeatJPerM3K', 0.5e6, 6e6, 'aluminium has about 2.4e6');
  const k = conductivityWPerMK / 1e3;
  const rc = volumetricHeatJPerM3K / 1e9;
  return { k, rc, alpha: k / rc };
}

/** Slower than any welding, and the sum of `mediumPlateRise` grows long as the speed falls. */
const LEAST_TRAVEL_MM_PER_S = 0.01;

/**
 * Checks a weld and converts it.
 * @throws TemperbookError also for a travel speed below 0.01 mm/s or a power that is not above zero.
 */
export function weldInMm(weld: WeldInPlate): MetalInMm & { readonly q: number; readonly v: number } {
  const metal = metalInMm(weld);
  const { netPowerW, travelMmPerS } = weld;
  if (!(travelMmPerS > 0 && Number.isFinite(travelMmPerS)))
    throw new TemperbookError('The travel speed must be above zero', {
      found: `${travelMmPerS} mm/s`,
      remedy:
        'A standing arc never settles into the steady state these formulas describe: use the plate solver for it',
    });
  if (travelMmPerS < LEAST_TRAVEL_MM_PER_S)
    throw new TemperbookError('No weld travels that slowly', {
      found: `${travelMmPerS} mm/s`,
      expected: `at least ${LEAST_TRAVEL_MM_PER_S} mm/s`,
      remedy: 'Check the unit: 5 mm/s are 0.005 m/s. For an arc that dwells use the plate solver',
    });
  if (!(netPowerW > 0 && Number.isFinite(netPowerW)))
    throw new TemperbookError('The net arc power must be above zero', { found: `${netPowerW} W` });
  return { ...metal, q: netPowerW, v: travelMmPerS };
}

/** @throws TemperbookError when the point is the source itself. */
export function requireOffSource(distanceMm: number): void {
  if (distanceMm > 0) return;
  throw new TemperbookError('The point lies on the arc itself, where a point source is infinitely hot', {
    found: 'a distance of 0 mm',
    remedy: 'Ask for a point outside the weld pool, at least a few millimetres away',
  });
}

function checkMetal(value: number, name: string, low: number, high: number, hint: string): void {
  if (value >= low && value <= high) return;
  throw new TemperbookError(`${name} is not that of a metal`, {
    found: String(value),
    expected: `${low} to ${high}; ${hint}`,
    remedy: 'Check the unit',
  });
}
