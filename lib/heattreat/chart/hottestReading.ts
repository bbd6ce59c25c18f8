import type { ThermalHistory } from '../../history';
import type { Span } from './chartStages';
import type { ChartSensor } from './sensorRoles';

/** The hottest reading of some sensors within a stretch of the chart. */
export interface HottestReading {
  readonly tempC: number;
  readonly atS: number;
  readonly sensor: string;
}

/** A hold between two others: metal falls into it from a hotter one, or rises out of it to one. */
export interface Neighbours {
  readonly fallsIn: boolean;
  readonly risesOut: boolean;
}

/**
 * Hottest reading of the sensors in a hold. Where a hotter stage comes before or after, each sensor counts from where
 * it first reaches the hold's band, or to where it last leaves it: the way between two holds belongs to neither.
 */
export function hottestReading(
  sensors: readonly ChartSensor[],
  window: Span,
  band: { readonly lowC: number; readonly highC: number },
  { fallsIn, risesOut }: Neighbours,
): HottestReading | undefined {
  let hottest: HottestReading | undefined;
  for (const { name, history } of sensors) {
    if (history.timeS.length === 0) continue;
    const held = fallsIn || risesOut ? withinBand(history, window, band) : undefined;
    const fromS = (fallsIn ? held?.fromS : undefined) ?? window.fromS;
    const toS = (risesOut ? held?.toS : undefined) ?? window.toS;
    for (let i = 0; i < history.timeS.length; i++) {
      const atS = history.timeS[i]!;
      if (atS < fromS || atS > toS) continue;
      const tempC = history.tempC[i]!;
      if (!hottest || tempC > hottest.tempC) hottest = { tempC, atS, sensor: name };
    }
  }
  return hottest;
}

/** From the first sample inside the band to the last one, within the window. */
function withinBand(
  { timeS, tempC }: ThermalHistory,
  { fromS, toS }: Span,
  { lowC, highC }: { readonly lowC: number; readonly highC: number },
): Span | undefined {
  let first: number | undefined;
  let last: number | undefined;
  for (let i = 0; i < timeS.length; i++) {
    if (timeS[i]! < fromS || timeS[i]! > toS || tempC[i]! < lowC || tempC[i]! > highC) continue;
    first ??= timeS[i]!;
    last = timeS[i]!;
  }
  return first === undefined ? undefined : { fromS: first, toS: last! };
}
