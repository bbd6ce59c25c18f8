import { celsiusToFahrenheit, fahrenheitToCelsius, formatTemp } from '../../quantity';
import type { Schedule } from '../schedule/schedule';
import type { ChartSensor } from './sensorRoles';

/** Readings this near the hottest make its plateau, K. */
const PLATEAU_K = 15;
/** A plateau this far outside a band may still be meant for it, K. */
const NEAR_BAND_K = 40;

/**
 * Why the chart's unit cannot be trusted, if so: a plateau that no hold of the schedule explains, and that would lie
 * in one had °F been taken for °C, or the other way round. 310 °F is an age, 310 °C is a ruined casting.
 */
export function unitDoubt(sensors: readonly ChartSensor[], schedule: Schedule): string | undefined {
  const plateauC = hottestPlateau(sensors);
  if (plateauC === undefined) return undefined;
  const holds = [...(schedule.solution ? [schedule.solution] : []), ...schedule.ages];
  const fits = (tempC: number, roomK: number) =>
    holds.some(({ lowC, highC }) => tempC > lowC - roomK && tempC < highC + roomK);
  if (fits(plateauC, NEAR_BAND_K)) return undefined;
  if (fits(fahrenheitToCelsius(plateauC), 1))
    return `the chart stays at ${formatTemp(plateauC)}; read as °F that is ${formatTemp(fahrenheitToCelsius(plateauC))}, a temperature of the schedule: were °F taken for °C?`;
  if (fits(celsiusToFahrenheit(plateauC), 1))
    return `the chart stays at ${formatTemp(plateauC)}; that number in °F taken for °C again would be a temperature of the schedule: was °C taken for °F?`;
  return undefined;
}

/** Median of the readings near the hottest one of all sensors, °C. */
function hottestPlateau(sensors: readonly ChartSensor[]): number | undefined {
  let hottest = Number.NEGATIVE_INFINITY;
  for (const { history } of sensors) {
    const { tempC } = history;
    for (let i = 0; i < tempC.length; i++) if (tempC[i]! > hottest) hottest = tempC[i]!;
  }
  if (!Number.isFinite(hottest)) return undefined;
  const near: number[] = [];
  for (const { history } of sensors) {
    // A few thousand readings tell a plateau.
    const every = Math.max(1, Math.floor(history.tempC.length / 3000));
    for (let i = 0; i < history.tempC.length; i += every)
      if (history.tempC[i]! > hottest - PLATEAU_K) near.push(history.tempC[i]!);
  }
  near.sort((a, b) => a - b);
  return near[Math.floor(near.length / 2)] ?? hottest;
}
