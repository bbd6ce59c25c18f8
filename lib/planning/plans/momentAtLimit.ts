import { type ThermalHistory, tempAt } from '../../history';

/** How a probe follows the metal that matters in one job, at the moment that comes to its limit. */
export interface MomentAtLimit {
  /** What it still warms with the arc out, K. */
  readonly overshoot: number;
  /** Rise at the probe over its rise. */
  readonly ratio: number;
  readonly peakC: number;
  /** How much later the probe peaks, s. */
  readonly lag: number;
}

/**
 * One plausible job: in the pass that heats the metal that matters most, how much it warms with the arc out, and how
 * the rise at the probe compares when it comes to the limit less that, or is hottest under the arc where it never does.
 */
export function momentAtLimit(
  critical: ThermalHistory,
  probe: ThermalHistory,
  passes: readonly { readonly startS: number; readonly endS: number }[],
  limitC: number,
  ambientC: number,
): MomentAtLimit {
  const top = peakOf(critical, -Infinity, Infinity);
  const pass = [...passes].reverse().find(({ startS }) => startS <= top.timeS) ?? passes[0]!;
  const within = (history: ThermalHistory, timeS: number) =>
    tempAt(history, Math.min(history.timeS.at(-1)!, Math.max(history.timeS[0]!, timeS)));
  const atEnd = within(critical, pass.endS);
  const overshoot = top.timeS > pass.endS ? Math.max(0, top.tempC - atEnd) : 0;
  const underArc = peakOf(critical, pass.startS, pass.endS);
  const wanted = limitC - overshoot;
  let atS = underArc.timeS;
  for (let i = 1; i < critical.timeS.length; i++) {
    const timeS = critical.timeS[i]!;
    if (timeS < pass.startS || timeS > pass.endS || critical.tempC[i]! < wanted) continue;
    atS = timeS;
    break;
  }
  const riseK = within(critical, atS) - ambientC;
  return {
    overshoot,
    ratio: riseK > 1 ? Math.max(0, within(probe, atS) - ambientC) / riseK : 1,
    peakC: top.tempC,
    lag: peakOf(probe, pass.startS, Infinity).timeS - peakOf(critical, pass.startS, Infinity).timeS,
  };
}

function peakOf(
  { timeS, tempC }: ThermalHistory,
  fromS: number,
  toS: number,
): { timeS: number; tempC: number } {
  let best = { timeS: fromS, tempC: Number.NEGATIVE_INFINITY };
  for (const [i, temp] of tempC.entries())
    if (timeS[i]! >= fromS && timeS[i]! <= toS && temp > best.tempC) best = { timeS: timeS[i]!, tempC: temp };
  return best;
}
