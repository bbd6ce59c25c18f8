import type { ChartSensor } from './sensorRoles';

/** Rates are taken over this time, s: noise of a second is no heating rate. */
const OVER_S = 300;

/** The steepest rise of a load sensor. */
export interface SteepestHeating {
  readonly kPerH: number;
  readonly atS: number;
  readonly sensor: string;
  /** No load sensor has a gap on the way up. */
  readonly isWhole: boolean;
}

/** Steepest heating of any load sensor over five minutes or more, before it reaches `untilC`; K/h. */
export function steepestHeating(
  loads: readonly ChartSensor[],
  fromS: number,
  toS: number,
  untilC: number,
): SteepestHeating | undefined {
  let steepest: Omit<SteepestHeating, 'isWhole'> | undefined;
  let isWhole = true;
  for (const { name, history } of loads) {
    const { timeS, tempC } = history;
    const gaps = new Set(history.gapAfter);
    let back = 0;
    for (let i = 0; i < timeS.length; i++) {
      if (timeS[i]! < fromS) {
        back = i + 1;
        continue;
      }
      if (timeS[i]! > toS || tempC[i]! > untilC) break;
      if (gaps.has(i - 1)) isWhole = false;
      // The latest sample that is five minutes back or more.
      while (back + 1 < i && timeS[back + 1]! <= timeS[i]! - OVER_S) back++;
      const spanS = timeS[i]! - timeS[back]!;
      if (spanS < OVER_S) continue;
      const kPerH = (3600 * (tempC[i]! - tempC[back]!)) / spanS;
      if (!steepest || kPerH > steepest.kPerH) steepest = { kPerH, atS: timeS[i]!, sensor: name };
    }
  }
  return steepest && { ...steepest, isWhole };
}
