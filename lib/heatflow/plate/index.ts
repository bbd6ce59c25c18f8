export { metalOfRegion } from './model/metalOfRegion';
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
export { checkPlan } from './plan/checkPlan';
export { arcTimeS, passArc, passLengthMm, travelMmPerS } from './plan/passArc';
export { type PlanCost, planCost } from './plan/planCost';
export { planQuestions } from './plan/planQuestions';
export { planSchema } from './plan/planSchema';
export type {
  AirChange,
  AlongPath,
  MetalProperties,
  PartRegion,
  PlanLine,
  PlanMoment,
  PlanPoint,
  PlanShape,
  PlateContact,
  PlateFace,
  PlateJoin,
  PlatePass,
  PlatePlan,
  PlateProbe,
  PlateSurface,
  PropertyValue,
  SourceRadius,
} from './plan/platePlan';
export { solvePlate } from './solvePlate';
