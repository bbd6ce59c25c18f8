import { isothermal, join, slice, type ThermalHistory, thermalHistory } from '../../history';
import type { ChartCheck } from './checkChart';
import type { ChartSensor } from './sensorRoles';

/** What metal at a sensor saw from the end of the quench on. */
export interface SinceQuench {
  readonly history: ThermalHistory;
  /** So long no chart shows it; it is taken to have lain at room temperature, s. */
  readonly layS: number;
}

/** The quench is over here; what it cost is `quenchStrength`, °C. */
const QUENCHED_C = 150;
/** Metal as cold as this at both ends of the time between two charts lay outside a furnace, °C. */
const OUTSIDE_C = 50;

/**
 * The history of a load sensor from the end of the quench, or from the start of a chart of ageing only. Between two charts
 * metal that was cold before and after lay cold, unless a heat was left out of the charts; a gap within a chart stays one.
 */
export function sinceQuench(
  { name, history: whole }: ChartSensor,
  { quench, parts }: Pick<ChartCheck, 'quench' | 'parts'>,
): SinceQuench {
  const immersed = quench?.sensors.find(({ sensor }) => sensor === name)?.immersed;
  const fromS = immersed ? quenchedS(whole, immersed.high) : whole.timeS[0]!;
  const { timeS, tempC, gapAfter = [] } = slice(whole, fromS, whole.timeS[whole.timeS.length - 1]!);
  const isBetween = (i: number): boolean =>
    parts.some(
      (part, k) =>
        timeS[i]! <= part.toS && timeS[i + 1]! >= (parts[k + 1]?.fromS ?? Number.POSITIVE_INFINITY),
    );
  const lay = [...gapAfter].filter(
    (i) => isBetween(i) && tempC[i]! <= OUTSIDE_C && tempC[i + 1]! <= OUTSIDE_C,
  );
  const history = thermalHistory(
    timeS,
    tempC,
    [...gapAfter].filter((i) => !lay.includes(i)),
  );
  const layS = lay.reduce((sum, i) => sum + timeS[i + 1]! - timeS[i]!, 0);
  // A sensor of the ageing chart alone sat on metal that was quenched with the rest.
  const beforeS = immersed || !quench ? 0 : fromS - quench.immersedS;
  return beforeS > 0 && tempC[0]! <= OUTSIDE_C
    ? { history: join([isothermal(tempC[0]!, beforeS), history]), layS: layS + beforeS }
    : { history, layS };
}

function quenchedS({ timeS, tempC }: ThermalHistory, fromS: number): number {
  let i = 0;
  while (i + 1 < timeS.length && (timeS[i]! < fromS || tempC[i]! > QUENCHED_C)) i++;
  return timeS[i]!;
}
