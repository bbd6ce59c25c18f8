import type { ThermalHistory } from '../history';
import { judge } from './judge';
import type { JudgeOptions } from './judgeOptions';
import type { ChannelVerdict } from './verdict';

/** One way the heat might have run: a history, and what differs from the rest in alloy, temper or probe. */
export interface Scenario {
  readonly name: string;
  readonly history: ThermalHistory;
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
 * Judges several scenarios alike and ranks them: most strength kept first, and of equals (to a tenth of a
 * percent) the quicker one first.
 */
export function compareScenarios(scenarios: readonly Scenario[], options: JudgeOptions): ScenarioResult[] {
  return scenarios
    .map(({ name, history, options: own }) => ({
      name,
      history,
      timeSpentS: history.timeS[history.timeS.length - 1]! - history.timeS[0]!,
      verdict: judge(history, { ...options, ...own, byChannel: {} }).channels[0]!,
    }))
    .sort(
      (a, b) =>
        Math.round(1000 * (b.verdict.yieldKeptFraction.nominal - a.verdict.yieldKeptFraction.nominal)) ||
        a.timeSpentS - b.timeSpentS,
    );
}
