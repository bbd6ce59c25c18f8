import type { ThermalHistory } from '../../../history';
import type { ChartSensor } from '../sensorRoles';

/** Between which two times something happened: the logger saw it not happened, then happened. s. */
export interface Bracket {
  readonly low: number;
  readonly high: number;
}

/** The quench as one sensor saw it. */
export interface SensorQuench {
  readonly sensor: string;
  /** When it left its plateau in the furnace. */
  readonly leaves: Bracket;
  /** When it went under. */
  readonly immersed: Bracket;
  /** Its temperature as it went under, as far down as it may have been, °C. */
  readonly immersedC: number;
  /** Average cooling from 400 to 200 °C, K/s; the band is what the logger's interval leaves open. */
  readonly rateKPerS: Bracket & { readonly nominal: number };
}

const FROM_C = 400;
const TO_C = 200;
/** No quench of a part is faster: the reader believes no faster change either, K/s. */
const FASTEST_K_PER_S = 400;
/** Steep cooling begins where an interval cools at this share of the average from 400 to 200 °C. */
const STEEP_SHARE = 0.25;
/**
 * Between two readings metal on its way to the water may cool so fast, K/s: a 3 mm wall in moving air, 2 h ΔT/(ρ c d)
 * with h = 30 W/m²K (derived).
 */
const THIN_WALL_K_PER_S = 4;
/** The plateau is what the sensor read this long before it left, from 5 to 35 min before the quench, s. */
const PLATEAU_S = { from: 2100, to: 300 };
/** Below the lowest reading of the plateau by this, a sensor has left it, K. */
const LEFT_K = 1;

/** The quench in a load sensor's trace after a time; undefined where the chart does not show it from 400 to 200 °C. */
export function sensorQuench({ name, history }: ChartSensor, afterS: number): SensorQuench | undefined {
  const { timeS, tempC, gapAfter } = history;
  const gaps = new Set(gapAfter);
  let hot = -1;
  for (let i = 0; i < timeS.length; i++) if (timeS[i]! <= afterS && tempC[i]! > FROM_C) hot = i;
  while (hot >= 0 && hot + 1 < timeS.length && tempC[hot + 1]! > FROM_C) hot++;
  if (hot < 0 || hot + 1 >= timeS.length) return undefined;
  let cold = hot + 1;
  while (cold < timeS.length && tempC[cold]! > TO_C) cold++;
  if (cold >= timeS.length) return undefined;
  for (let i = hot; i < cold; i++) if (gaps.has(i)) return undefined;
  const at = (c: number, i: number) =>
    timeS[i]! + ((tempC[i]! - c) / (tempC[i]! - tempC[i + 1]!)) * (timeS[i + 1]! - timeS[i]!);
  const nominalS = at(TO_C, cold - 1) - at(FROM_C, hot);
  const longestS = timeS[cold]! - timeS[hot]!;
  const shortestS = timeS[cold - 1]! - timeS[hot + 1]!;
  const drop = FROM_C - TO_C;
  const average = drop / nominalS;
  // Back from 400 °C while it cools steeply.
  let under = hot;
  while (under > 0 && coolingOf(history, under - 1) >= STEEP_SHARE * average) under--;
  const leaves = leavesPlateau(history, timeS[under]!);
  const before = Math.max(THIN_WALL_K_PER_S, under > 0 ? coolingOf(history, under - 1) : 0);
  return {
    sensor: name,
    leaves,
    immersed: { low: timeS[under]!, high: timeS[under + 1]! },
    immersedC: tempC[under]! - before * (timeS[under + 1]! - timeS[under]!),
    rateKPerS: {
      low: drop / longestS,
      nominal: average,
      high: Math.max(average, shortestS > 0 ? Math.min(FASTEST_K_PER_S, drop / shortestS) : FASTEST_K_PER_S),
    },
  };
}

const coolingOf = ({ timeS, tempC }: ThermalHistory, i: number): number =>
  (tempC[i]! - tempC[i + 1]!) / (timeS[i + 1]! - timeS[i]!);

/** When a trace, of load or of air, left its plateau before a time. */
export function leavesPlateau({ timeS, tempC }: ThermalHistory, beforeS: number): Bracket {
  let lowest = Number.POSITIVE_INFINITY;
  let last = -1;
  for (let i = 0; i < timeS.length && timeS[i]! <= beforeS; i++) {
    last = i;
    if (timeS[i]! >= beforeS - PLATEAU_S.from && timeS[i]! <= beforeS - PLATEAU_S.to)
      lowest = Math.min(lowest, tempC[i]!);
  }
  if (last < 0 || !Number.isFinite(lowest)) return { low: Number.NEGATIVE_INFINITY, high: beforeS };
  let i = last;
  while (i > 0 && tempC[i]! < lowest - LEFT_K) i--;
  return { low: timeS[i]!, high: timeS[Math.min(i + 1, timeS.length - 1)]! };
}
