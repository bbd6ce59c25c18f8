import { type ThermalHistory, thermalHistory } from '../../history';
import type { EvidenceStep } from './evidenceRow';

/** Room temperature, °C. */
const ROOM_C = 20;
/** Steps follow each other within this, s: heating and cooling of a soak are not counted. */
const STEP_S = 1e-3;
/** Points of a weld cycle's heating and cooling, and how many time constants the cooling is followed. */
const HEATING_POINTS = 8;
const COOLING_POINTS = 40;
const COOLING_CONSTANTS = 5;

/** The exposure of a row of evidence as a history; two cold seconds where nothing was done. */
export function evidenceHistory(exposure: readonly EvidenceStep[]): ThermalHistory {
  const timeS: number[] = [];
  const tempC: number[] = [];
  const to = (afterS: number, atC: number): void => {
    timeS.push(timeS.length === 0 ? 0 : timeS[timeS.length - 1]! + afterS);
    tempC.push(atC);
  };
  for (const step of exposure) {
    if ('weldCycle' in step) {
      const { peakC, heatingCPerS, coolingTimeConstantS } = step.weldCycle;
      const rise = peakC - ROOM_C;
      to(STEP_S, ROOM_C);
      for (let k = 1; k <= HEATING_POINTS; k++)
        to(rise / heatingCPerS / HEATING_POINTS, ROOM_C + (rise * k) / HEATING_POINTS);
      for (let k = 1; k <= COOLING_POINTS; k++)
        to(
          (COOLING_CONSTANTS * coolingTimeConstantS) / COOLING_POINTS,
          ROOM_C + rise * Math.exp((-COOLING_CONSTANTS * k) / COOLING_POINTS),
        );
    } else {
      to(STEP_S, step.tempC);
      to(step.timeS, step.tempC);
    }
  }
  if (timeS.length === 0) {
    to(0, ROOM_C);
    to(2, ROOM_C);
  }
  return thermalHistory(timeS, tempC);
}
