export { compareScenarios, type Scenario, type ScenarioResult } from './compareScenarios';
export { considerRecovery, type RecoveryOption, type RecoveryOptions } from './considerRecovery';
export { judge } from './judge';
export { placementSentence } from './placementSentence';
export { type Placement, type PlacementOptions, type ProbePlace, probePlacement } from './probePlacement';
export type * from './verdict';
export { VERDICT_IN_WORDS } from './wording';
export { worstChannel } from './worstChannel';
