import { kelvinToCelsius, requireNumber } from '../quantity';

/** Coefficients of the saturation line. Source: IAPWS Industrial Formulation 1997, table 34. */
const N = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const;

/**
 * Boiling point of water at a pressure, °C, by the backward saturation equation.
 *
 * Range: 0.7 to 20,000 kPa. Source: IAPWS Industrial Formulation 1997 (equation 31).
 * @throws TemperbookError outside its range.
 * @example boilingPointC(100) // 99.606
 */
export function boilingPointC(pressureKPa: number): number {
  const pressureMPa = requireNumber(pressureKPa, 'The pressure in kPa', { low: 0.7, high: 20_000 }) / 1000;
  const b = pressureMPa ** 0.25;
  const e = b * b + N[2] * b + N[5];
  const f = N[0] * b * b + N[3] * b + N[6];
  const g = N[1] * b * b + N[4] * b + N[7];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = N[9] + d;
  return kelvinToCelsius((sum - Math.sqrt(sum * sum - 4 * (N[8] + N[9] * d))) / 2);
}

/**
 * Pressure of the air at an altitude, kPa: p = 101.325 (1 − 2.25577·10⁻⁵ h)^5.25588. Weather moves it by some 2 kPa, and the
 * boiling point by 0.6 °C; a weather report's pressure is reduced to sea level and is no use here.
 *
 * Range: −500 to 9000 m. Source: ICAO standard atmosphere (ISO 2533).
 * @throws TemperbookError outside its range.
 * @example pressureAtKPa(1524) // 84.307
 */
export function pressureAtKPa(altitudeM: number): number {
  requireNumber(altitudeM, 'The altitude in m', { low: -500, high: 9000 });
  return 101.325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588;
}
