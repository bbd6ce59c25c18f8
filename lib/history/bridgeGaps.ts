import { STEP_S } from './join';
import { checkHistory, type ThermalHistory, thermalHistory } from './thermalHistory';

/**
 * How to fill an unrecorded interval: `hold-higher` keeps the hotter of its two ends all the way, `linear`
 * draws a straight line. Neither knows of a pass that ran unrecorded.
 */
export type GapRule = 'hold-higher' | 'linear';

/**
 * The history with every gap filled by a stated rule, so that integrals run across: an assumption to be shown
 * with the result, not a measurement. With `hold-higher` the drop or rise at the colder end takes 0.001 s (a
 * tenth of a gap shorter than 0.01 s).
 * @throws TemperbookError on a history that breaks its promises.
 */
export function bridgeGaps(history: ThermalHistory, rule: GapRule): ThermalHistory {
  checkHistory(history);
  const { timeS, tempC, gapAfter } = history;
  if (rule === 'linear') return thermalHistory(timeS, tempC);
  const gaps = new Set(gapAfter);
  const times: number[] = [];
  const temps: number[] = [];
  for (let i = 0; i < timeS.length; i++) {
    times.push(timeS[i]!);
    temps.push(tempC[i]!);
    if (!gaps.has(i) || tempC[i] === tempC[i + 1]) continue;
    const stepS = Math.min(STEP_S, (timeS[i + 1]! - timeS[i]!) / 10);
    times.push(tempC[i]! > tempC[i + 1]! ? timeS[i + 1]! - stepS : timeS[i]! + stepS);
    temps.push(Math.max(tempC[i]!, tempC[i + 1]!));
  }
  return thermalHistory(times, temps);
}
