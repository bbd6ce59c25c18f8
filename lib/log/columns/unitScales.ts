import { celsiusToFahrenheit, ZERO_C_IN_K } from '../../quantity';
import type { TempUnit } from '../readOptions';

/** A unit that is a straight line from °C: °C = (value − zero) / perDegree. mV is not one. */
export const SCALES: Readonly<
  Record<Exclude<TempUnit, 'mV'>, { readonly zero: number; readonly perDegree: number }>
> = {
  '°C': { zero: 0, perDegree: 1 },
  '°F': { zero: celsiusToFahrenheit(0), perDegree: 1.8 },
  K: { zero: ZERO_C_IN_K, perDegree: 1 },
  '0.1 °C': { zero: 0, perDegree: 10 },
  '0.001 °C': { zero: 0, perDegree: 1000 },
};

/** Value in °C of a reading in one of these units. */
export function fromUnit(value: number, unit: Exclude<TempUnit, 'mV'>): number {
  const { zero, perDegree } = SCALES[unit];
  return (value - zero) / perDegree;
}
