export { calibratedParameters, type FittedConstants, fittedConstants } from './calibratedParameters';
export { type AdvanceManyOptions, advanceMany } from './many/advanceMany';
export type { HistoryEnd } from './many/manyMessages';
export { type PrecipitateParameters, publishedParameters } from './parameters';
export type { Partition } from './partition';
export {
  type PrecipitateModel,
  type PrecipitateOptions,
  type PrecipitateTrajectory,
  precipitateModel,
} from './precipitateModel';
export type { Anchor, Population, PrecipitateState, Solute } from './precipitateState';
export { PRECIPITATE_LIMIT_C } from './rangeRemarks';
export {
  capillaryMK,
  criticalRadiusM,
  diffusivityM2PerS,
  growthMPerS,
  interfaceWtPct,
  nucleationPerM3S,
  solvusWtPct,
} from './rates';
export type { PrecipitateSeries } from './sampleMoments';
export type { SizeClasses } from './sizeClasses';
