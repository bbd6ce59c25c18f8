export { type PrecipitateParameters, publishedParameters } from './parameters';
export {
  type PrecipitateModel,
  type PrecipitateOptions,
  type PrecipitateTrajectory,
  precipitateModel,
} from './precipitateModel';
export type { Anchor, Population, PrecipitateState, Solute } from './precipitateState';
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
