import type { Exposure } from '../exposure';
import type { ThermalHistory } from '../history';
import { judge } from './judge';
import type { JudgeOptions } from './judgeOptions';
import type { ChannelVerdict } from './verdict';

/** One way the heat might have run: an exposure or a history, and what differs from the rest in alloy, temper or probe. */
export interface Scenario {
  readonly name: string;
  /** What a probe saw keeps its doubts through every edit (`probeExposure`, `editExposure`). */
  readonly history: Exposure | ThermalHistory;
  readonly options?: Partial<Omit<JudgeOptions, 'byChannel'>>;
}

/** A scenario and its verdict. */
export interface ScenarioResult {
  readonly name: string;
  readonly history: ThermalHistory;
  /** From the first to the last sample, s. */
  readonly timeSpentS: number;
  readonly verdict: ChannelVerdict;
}

/**
 * Judges several scenarios alike and ranks them by the strength one can count on, the low end of the band, and
 * of equals (to half a percent) the quicker one first. Ranking by the nominal value would put the hottest run
 * of an under-aged casting on top, because it ages further before it softens.
 */
export function compareScenarios(scenarios: readonly Scenario[], options: JudgeOptions): ScenarioResult[] {
  return scenarios
    .map(({ name, history: given, options: own }) => {
      const history = 'doubts' in given ? given.history : given;
      return {
        name,
        history,
        timeSpentS: history.timeS[history.timeS.length - 1]! - history.timeS[0]!,
        verdict: judge(given, { ...options, ...own, byChannel: {} }).channels[0]!,
      };
    })
    .sort(
      (a, b) =>
        Math.round(200 * b.verdict.yieldKeptFraction.low) -
          Math.round(200 * a.verdict.yieldKeptFraction.low) || a.timeSpentS - b.timeSpentS,
    );
}
