import { asExposure, type Exposure } from '../exposure';
import type { ThermalHistory } from '../history';
import { knownOptions, nowAndThen, requireList } from '../quantity';
import { judge } from './judge';
import { JUDGE_OPTIONS, type JudgeOptions } from './judgeOptions';
import type { ChannelVerdict } from './verdict';

/** As `judge`; a scenario has no channels to tell apart. */
export type ScenarioOptions = Omit<JudgeOptions, 'byChannel'>;

const OPTIONS = JUDGE_OPTIONS.filter((name) => name !== 'byChannel');

/** One way the heat might have run: an exposure or a history, and what differs from the rest in alloy, temper or probe. */
export interface Scenario {
  readonly name: string;
  /** What a probe saw keeps its doubts through every edit (`probeExposure`, `editExposure`). */
  readonly history: Exposure | ThermalHistory;
  readonly options?: Partial<ScenarioOptions>;
}

const SCENARIO = ['name', 'history', 'options'] as const satisfies readonly (keyof Scenario)[];

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
 * @throws TemperbookError for no scenario, options it does not know, and as `judge`.
 */
export function compareScenarios(scenarios: readonly Scenario[], given: ScenarioOptions): ScenarioResult[] {
  const { onProgress, ...options } = knownOptions(given, OPTIONS, 'compareScenarios');
  const tell = nowAndThen(onProgress);
  return requireList(scenarios, 'Scenarios', 1)
    .map((scenario, k) => {
      const { name, history: heat, options: own = {} } = knownOptions(scenario, SCENARIO, 'A scenario');
      const { history } = asExposure(heat);
      tell(k / scenarios.length);
      return {
        name,
        history: 'doubts' in heat ? heat.history : heat,
        timeSpentS: history.timeS[history.timeS.length - 1]! - history.timeS[0]!,
        verdict: judge(heat, { ...options, ...knownOptions(own, OPTIONS, `The scenario "${name}"`) })
          .channels[0]!,
      };
    })
    .sort(
      (a, b) =>
        Math.round(200 * b.verdict.yieldKeptFraction.low) -
          Math.round(200 * a.verdict.yieldKeptFraction.low) || a.timeSpentS - b.timeSpentS,
    );
}
