export { plateErrorSentence } from './outcome/plateErrorSentence';
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
} from './outcome/plateResult';
export { probeNotes } from './outcome/probeNotes';
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
} from './plan/platePlan';
export { solvePlate } from './solvePlate';
