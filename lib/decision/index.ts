export { allowedPeak } from './allowedPeak';
export { compareScenarios, type Scenario, type ScenarioResult } from './compareScenarios';
export { considerRecovery, type RecoveryOption, type RecoveryOptions } from './considerRecovery';
export { judge } from './judge';
export { judgedMap } from './judgedMap';
export { type ChannelOptions, DEFAULT_ALLOWANCE, type JudgeOptions } from './judgeOptions';
export { type Placement, type PlacementOptions, type ProbePlace, probePlacement } from './probePlacement';
export { type ProbeAndLimit, readingAtLimit } from './readingAtLimit';
export type { SoftReach } from './softReach';
export {
  type HeatDoubt,
  type SoftZone,
  type SoftZoneOptions,
  type SoftZonePlace,
  type SoftZonePoint,
  softZone,
} from './softZone';
export { TREATMENTS, type Treatment } from './treatments';
export type { ClockFactor } from './trust/clockFactor';
export { type DataSet, type MeasuredFact, measuredFacts } from './trust/measuredFact';
export { modelTrust, type TrustRow } from './trust/modelTrust';
export { TESTED_MODELS, type TestedModel } from './trust/testedModels';
export { groupTrust, type TrustSummary, trustSummary } from './trust/trustSummary';
export { verdictTrust } from './trust/verdictTrust';
export { type WeldZoneRow, weldZoneTrust } from './trust/weldZoneTrust';
export type * from './verdict';
export { vickersHardness } from './vickersHardness';
export { formatKept, placementSentence, softZoneSentence, VERDICT_IN_WORDS } from './wording';
export { worstChannel } from './worstChannel';
