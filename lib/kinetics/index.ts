export { type AgeingState, type AgeingTrajectory, ageingCurve } from './ageing/ageingCurve';
export { type AgeingProgress, advanceProgress, NOT_AGED, soakStep } from './ageing/ageingProgress';
export { type AgeingShape, ageingShape } from './ageing/ageingShape';
export { ageingYieldMPa, ageingYieldSlopeMPa } from './ageing/ageingYield';
export { combinedSoftening, type Softening } from './combinedSoftening';
export {
  type DissolutionState,
  type DissolutionTrajectory,
  dissolutionModel,
} from './dissolution/dissolutionModel';
export { dissolvableFraction } from './dissolution/dissolvableFraction';
export { dissolvedFraction } from './dissolution/dissolvedFraction';
export {
  checkEvidence,
  type EvidenceMeasurement,
  type EvidenceRow,
  type EvidenceStep,
  evidenceHash,
  evidenceHistory,
  evidenceTable,
  type FrozenBand,
  type FrozenPrediction,
  frozenPredictions,
} from './evidence';
export { type Practice, type PracticeLine, type Practices, practicesFor } from './map/practices';
export { NEAR_PEAK_K, type WeldCycle, weldCycle } from './map/weldCycle';
export {
  type ArrheniusTime,
  AT_THE_END,
  advanceMetal,
  checkStartYield,
  type FitOptions,
  fitMetals,
  fitReport,
  MEMBERS_FILE,
  type MemberTable,
  type MetalFamily,
  type MetalOutcome,
  type MetalStart,
  type MetalState,
  type MetalTrack,
  type MovedLine,
  membersHash,
  memberText,
  outcomeOfMetal,
  type PlausibleMetal,
  type PlausibleMetals,
  plausibleMetals,
  type RowPrediction,
  rowPrediction,
  startOfMetal,
  type TemperKind,
  WHYS_LOW,
  yieldOfState,
} from './metals';
export { naturalAgeing } from './naturalAgeing';
export { hardeningLeft, type OverageingShape, peakDoseS, yieldKept } from './overageing/overageingCurve';
export { NO_DOSE, type OverageingDose } from './overageing/overageingDose';
export { keptLines, type TimeFactor, temperCurve } from './overageing/overageingLines';
export {
  BULK_SOAK_LIMIT_C,
  type OverageingOptions,
  type OverageingState,
  type OverageingTrajectory,
  overageingModel,
} from './overageing/overageingModel';
export { type AllowanceUse, practiceAllowanceUsed } from './overageing/practiceAllowanceUsed';
export {
  advanceMany,
  calibratedParameters,
  type FittedConstants,
  fittedConstants,
  type Partition,
  PRECIPITATE_LIMIT_C,
  type PrecipitateModel,
  type PrecipitateOptions,
  type PrecipitateParameters,
  type PrecipitateSeries,
  type PrecipitateState,
  type PrecipitateTrajectory,
  precipitateModel,
  publishedParameters,
  type SizeClasses,
} from './precipitate';
export {
  criticalTimeS,
  type QuenchCurve,
  type QuenchOptions,
  type QuenchResult,
  quenchedFraction,
  quenchFactor,
} from './quenchFactor';
export { resolveAlloy } from './resolveAlloy';
export { type SofteningState, type SofteningTrajectory, softeningModel } from './softeningModel';
export type {
  AlloyLike,
  RangeRemark,
  StartState,
  TemperModel,
  TemperTrajectory,
} from './temperModel';
export { vickersOfYield, yieldOfVickers } from './vickers';
