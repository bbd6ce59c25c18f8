export { type AgeingRow, ageingEvidence, type MeasuredAgeing } from './evidence/ageingEvidence';
export { type DataSet, type MeasuredFact, measuredFacts } from './evidence/measuredFact';
export {
  type MeasuredSoftening,
  type OverageingRow,
  overageingEvidence,
} from './evidence/overageingEvidence';
export { type PrecipitateRow, precipitateEvidence } from './evidence/precipitateEvidence';
export { compareForms, type FormScore } from './fits/compareForms';
export { type AgeingFit, fitAgeingCurve } from './fits/fitAgeingCurve';
export { type FittedConstant, fitOverageingCurve, type OverageingFit } from './fits/fitOverageingCurve';
export { fitPrecipitate } from './fits/fitPrecipitate';
export {
  type AnchoredConstants,
  anchoredConstants,
  anchoredParameters,
  fitPrecipitateToAnchors,
} from './fits/fitPrecipitateToAnchors';
export { type AgeingResidual, ageingResiduals } from './residuals/ageingResiduals';
export { type OverageingResidual, overageingResiduals } from './residuals/overageingResiduals';
export { type PrecipitateResidual, precipitateResiduals } from './residuals/precipitateResiduals';
export { type SayingAnswer, type SayingWord, sayingAnswers } from './sayings/sayingAnswers';
export { coverageByLot, type LotCoverage } from './scores/coverageByLot';
export { frozenScores, type MemberScore, memberScores } from './scores/memberScores';
export {
  alloyOf,
  type BoardScore,
  boardScores,
  rangeOf,
  SCORED_MODELS,
  type ScoredModel,
  type ScoreLine,
  sampleOf,
  scoreboard,
} from './scores/scoreboard';
export { type ScoreSummary, scoreSummary } from './scores/scoreSummary';
export { type Spike, spikeHistory, spikes } from './scores/spikeGrid';
export { SPIKE_DOUBTS, type SpikeDoubt, type SpikeWord, spikeWords } from './scores/spikeWords';
export { type MeasuredWord, measuredWords, practiceWords } from './scores/wrongWords';
export type { ClockFactor } from './trust/clockFactor';
export { modelTrust, type TrustRow } from './trust/modelTrust';
export { TESTED_MODELS, type TestedModel } from './trust/testedModels';
export { groupTrust, type TrustSummary, trustSummary } from './trust/trustSummary';
export { verdictTrust } from './trust/verdictTrust';
export { type WeldZoneRow, weldZoneTrust } from './trust/weldZoneTrust';
