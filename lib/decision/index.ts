export { compareScenarios, type Scenario, type ScenarioResult } from './compareScenarios';
export { considerRecovery, type RecoveryOption } from './considerRecovery';
export { judge } from './judge';
export { type ChannelOptions, DEFAULT_ALLOWANCE, type JudgeOptions } from './judgeOptions';
export type * from './verdict';
export { formatKept, VERDICT_IN_WORDS } from './wording';
