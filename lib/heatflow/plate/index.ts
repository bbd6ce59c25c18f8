export { plateErrorSentence } from './plateErrorSentence';
export type {
  MetalProperties,
  PartRegion,
  PlanPoint,
  PlanShape,
  PlateContact,
  PlatePass,
  PlatePlan,
  PlateProbe,
  PlateSurface,
  PropertyValue,
  SourceRadius,
} from './platePlan';
export type {
  PlateDoubt,
  PlateEnergy,
  PlateGrid,
  PlateOptions,
  PlatePassResult,
  PlateProbeError,
  PlateProbeResult,
  PlateProgress,
  PlateResult,
  PlateSteps,
} from './plateResult';
export { probeNotes } from './probeNotes';
export { solvePlate } from './solvePlate';
