import { TemperbookError } from './error';

/** 0 °C in kelvin (ITS-90, exact). */
export const ZERO_C_IN_K = 273.15;
/** Molar gas constant, J/(mol K). Source: CODATA 2018, exact since the 2019 SI. */
export const GAS_CONSTANT = 8.314462618;
/** Millimetres per inch, exact (international inch, 1959). */
export const MM_PER_INCH = 25.4;
/** Megapascal per ksi: 1 lbf = 4.4482216152605 N and 1 in = 25.4 mm, both exact. */
export const MPA_PER_KSI = 6.894757293168;

/**
 * °C to °F: F = 1.8 C + 32.
 * @example celsiusToFahrenheit(100) // 212
 */
export const celsiusToFahrenheit = (tempC: number): number => tempC * 1.8 + 32;
/**
 * °F to °C: C = (F − 32) / 1.8.
 * @example fahrenheitToCelsius(440) // 226.67
 */
export const fahrenheitToCelsius = (tempF: number): number => (tempF - 32) / 1.8;
/** °C to K. */
export const celsiusToKelvin = (tempC: number): number => tempC + ZERO_C_IN_K;
/** K to °C. */
export const kelvinToCelsius = (tempK: number): number => tempK - ZERO_C_IN_K;
/**
 * MPa to ksi.
 * @example mpaToKsi(276) // 40.0
 */
export const mpaToKsi = (mpa: number): number => mpa / MPA_PER_KSI;
/** ksi to MPa. */
export const ksiToMpa = (ksi: number): number => ksi * MPA_PER_KSI;
/** mm to inches. */
export const mmToInches = (mm: number): number => mm / MM_PER_INCH;
/** Inches to mm. */
export const inchesToMm = (inches: number): number => inches * MM_PER_INCH;

/** A number or a clear error: rejects NaN and infinities, and values outside `[low, high]` when given. */
export function requireNumber(
  value: unknown,
  name: string,
  { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY }: { low?: number; high?: number } = {},
): number {
  if (typeof value === 'number' && Number.isFinite(value) && value >= low && value <= high) return value;
  const range =
    low > Number.NEGATIVE_INFINITY || high < Number.POSITIVE_INFINITY ? ` from ${low} to ${high}` : '';
  throw new TemperbookError(`${name} is not usable`, {
    found: String(value),
    expected: `a finite number${range}`,
  });
}
