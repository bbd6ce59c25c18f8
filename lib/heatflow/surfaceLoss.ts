import { celsiusToKelvin, requireNumber } from '../quantity';

/** Stefan–Boltzmann constant, W/m² K⁴. Source: CODATA 2018, exact since the 2019 SI. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

/**
 * Radiation as a film coefficient, W/m² K: h = ε σ (T⁴ − Ta⁴) / (T − Ta), temperatures in K.
 *
 * Emissivity of aluminium (handbook values): polished 0.05, sheet 0.09, oxidised 0.1–0.2, anodised 0.8. Worked
 * example: 0.3 at 200 °C in surroundings of 20 °C: 4.04 W/m² K.
 * @throws TemperbookError for an emissivity outside 0…1 or a temperature below absolute zero.
 */
export function radiationFilmWPerM2K(emissivity: number, surfaceC: number, surroundingsC: number): number {
  const e = requireNumber(emissivity, 'emissivity', { low: 0, high: 1 });
  const hot = celsiusToKelvin(requireNumber(surfaceC, 'surfaceC', { low: -273.15 }));
  const cold = celsiusToKelvin(requireNumber(surroundingsC, 'surroundingsC', { low: -273.15 }));
  // (T⁴ − Ta⁴)/(T − Ta) multiplied out, so that equal temperatures give the limit and not 0/0.
  return e * STEFAN_BOLTZMANN * (hot * hot + cold * cold) * (hot + cold);
}

/**
 * Film coefficient of a plate standing upright in still air, W/m² K:
 *
 * Nu = 0.68 + 0.670 Ra^¼ / (1 + (0.492/Pr)^(9/16))^(4/9), Ra up to 1e9, air properties at the film temperature
 *
 * Source: S. W. Churchill & H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323–1329; air at 1 atm by
 * Sutherland's formulas (U.S. Standard Atmosphere 1976), Pr 0.70. Worked example: 100 mm at 200 °C in air of 20 °C:
 * 8.3 W/m² K (8.19 with tabulated air).
 * @throws TemperbookError for a height outside 1 mm…5 m or temperatures outside −50…700 °C.
 */
export function stillAirFilmWPerM2K({
  heightMm,
  surfaceC,
  airC,
}: {
  readonly heightMm: number;
  readonly surfaceC: number;
  readonly airC: number;
}): number {
  const length = requireNumber(heightMm, 'heightMm', { low: 1, high: 5000 }) / 1000;
  const range = { low: -50, high: 700 };
  const difference = Math.abs(
    requireNumber(surfaceC, 'surfaceC', range) - requireNumber(airC, 'airC', range),
  );
  const film = celsiusToKelvin((surfaceC + airC) / 2);
  const conductivity = (2.64638e-3 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
  const viscosity = (1.458e-6 * film ** 1.5) / (film + 110.4) / (353.0 / film);
  const prandtl = 0.7;
  const rayleigh = (9.80665 * difference * length ** 3 * prandtl) / (film * viscosity ** 2);
  const nusselt = 0.68 + (0.67 * rayleigh ** 0.25) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9);
  return (nusselt * conductivity) / length;
}

/**
 * Conductance of a clamped metal contact, W/m² K: h = 1.25 k m/σ (p/H)^0.95, k the mean conductivity, σ and m the
 * roughness and mean slope of both faces together, p the pressure and H the hardness of the softer.
 *
 * For clean, flat, bare faces it is an upper value: workshop contacts of aluminium gave 100–1000 W/m² K dry. A
 * starting value for `calibrateToLog`, not an answer.
 *
 * Source: M. G. Cooper, B. B. Mikic & M. M. Yovanovich, Int. J. Heat Mass Transfer 12 (1969) 279–300. Worked
 * example: 167 W/m K, m 0.15, σ 1.5 µm, H 1.1 GPa, 1 MPa: 26 900 W/m² K.
 * @throws TemperbookError for a value that is not above zero.
 */
export function contactConductanceWPerM2K(contact: {
  readonly conductivityWPerMK: number;
  readonly slope: number;
  readonly roughnessUm: number;
  readonly hardnessGPa: number;
  readonly pressureMPa: number;
}): number {
  for (const [name, value] of Object.entries(contact)) requireNumber(value, name, { low: Number.MIN_VALUE });
  const { conductivityWPerMK, slope, roughnessUm, hardnessGPa, pressureMPa } = contact;
  return (
    ((1.25 * conductivityWPerMK * slope) / (roughnessUm * 1e-6)) *
    (pressureMPa / (hardnessGPa * 1000)) ** 0.95
  );
}
