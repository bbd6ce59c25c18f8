import { celsiusToFahrenheit, mpaToKsi } from './units';

/** "227 °C (440 °F)": the way every temperature is shown. */
export function formatTemp(tempC: number, digits = 0): string {
  return `${tempC.toFixed(digits)} °C (${celsiusToFahrenheit(tempC).toFixed(digits)} °F)`;
}

/** "39 °C (70 °F)": a difference of temperatures, which has no zero point to convert. */
export function formatTempSpan(kelvin: number, digits = 0): string {
  return `${kelvin.toFixed(digits)} °C (${(1.8 * kelvin).toFixed(digits)} °F)`;
}

/** A time span in the largest unit that reads well: "45 s", "12 min", "3.5 h", "9 d". */
export function formatDuration(seconds: number): string {
  if (seconds < 0) return `−${formatDuration(-seconds)}`;
  if (seconds < 1) return `${Number(seconds.toPrecision(2))} s`;
  const [value, unit] =
    seconds < 120
      ? [seconds, 's']
      : seconds < 7200
        ? [seconds / 60, 'min']
        : seconds < 172_800
          ? [seconds / 3600, 'h']
          : [seconds / 86_400, 'd'];
  return `${value < 10 ? Number(value.toFixed(1)) : Math.round(value)} ${unit}`;
}

/** "207 MPa (30.0 ksi)": the way every strength is shown, beside the word yield or ultimate. */
export function formatStress(mpa: number): string {
  return `${mpa.toFixed(0)} MPa (${mpaToKsi(mpa).toFixed(1)} ksi)`;
}

/** "87 %" from 0.87. */
export function formatPercent(fraction: number, digits = 0): string {
  return `${(fraction * 100).toFixed(digits)} %`;
}
