export { ARC_EFFICIENCY, acTigEfficiency, type WeldProcess } from './arcEfficiency';
export { calibrateToLog } from './calibration/calibrateToLog';
export type {
  Calibration,
  CalibrationChannel,
  CalibrationOptions,
  CalibrationUnknown,
  HeatModel,
  PredictedHistory,
} from './calibration/calibration';
export type { ChannelResidual } from './calibration/channelResidual';
export { farthestFits } from './calibration/farthestFits';
export { fitDraws } from './calibration/fitDraws';
export { fitPlan } from './calibration/fitPlan';
export { lumpedHeatModel } from './calibration/lumpedHeatModel';
export type { PlanFit, PlanFitOptions, PlanUnknown } from './calibration/planFit';
export { nuisanceKnobs, type PlanKnob, type PlanKnobs, planWith } from './calibration/planKnobs';
export { passesAsLogged, plateHeatModel } from './calibration/plateHeatModel';
export { arcPowerForBeadW, type BeadArc, beadAreaMm2, meltingHeatJPerMm3 } from './closedForm/beadArea';
export { bulkRise } from './closedForm/bulkRise';
export { type CoolingTime, type CoolingWeld, coolingTime } from './closedForm/coolingTime';
export { type FastWeld, fastThickRise, fastThinRise } from './closedForm/fastWeldRise';
export {
  type HandbookWeld,
  handbookHazWidthMm,
  handbookPeakC,
  handbookThickPeakC,
} from './closedForm/handbookPeak';
export { type MediumPlateWeld, mediumPlateRise } from './closedForm/mediumPlateRise';
export {
  mediumPlateHistory,
  type PassingArc,
  thickPlateHistory,
  thinPlateHistory,
} from './closedForm/passingArc';
export { mediumPlatePeak, type PassPeak, thickPlatePeak, thinPlatePeak } from './closedForm/passPeak';
export { scaledBesselK0 } from './closedForm/scaledBesselK0';
export { solidificationTime } from './closedForm/solidificationTime';
export { type JointShape, steelCoolingTime85 } from './closedForm/steelCoolingTime';
export { type ThickPlatePoint, thickPlateRise } from './closedForm/thickPlateRise';
export { type ThinPlatePoint, type ThinPlateWeld, thinPlateRise } from './closedForm/thinPlateRise';
export { type CoolingRate, relativePlateThickness, weldCoolingRate } from './closedForm/weldCoolingRate';
export type { PlateMetal, WeldInPlate } from './closedForm/weldInPlate';
export {
  type ArcReading,
  type EfficiencyBand,
  type HeatInput,
  heatInput,
  type TravelReading,
  type WeldReading,
} from './heatInput';
export {
  alloyAt,
  type HottestMetal,
  hottestMetal,
  hottestOfAlloy,
  nearestWeld,
} from './hottestMetal';
export type { HeatPulse, LumpedJob, LumpedLink, LumpedPart } from './lumped/lumpedJob';
export { type LumpedResult, lumpedNetwork } from './lumped/lumpedNetwork';
export { type OvenOptions, ovenAsks, ovenExposure } from './oven/ovenExposure';
export { listOvens, type Oven, ovenOf } from './oven/ovens';
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
  PlateDoubt,
  PlateEnergy,
  PlateFace,
  PlateGrid,
  PlateJoin,
  PlateOptions,
  PlatePass,
  PlatePassResult,
  PlatePlan,
  PlateProbe,
  PlateProbeError,
  PlateProbeResult,
  PlateProgress,
  PlateResult,
  PlateSteps,
  PlateSurface,
  PropertyValue,
  SourceRadius,
} from './plate';
export {
  arcTimeS,
  checkPlan,
  type PlanCost,
  passLengthMm,
  planCost,
  planQuestions,
  planSchema,
  plateErrorSentence,
  solvePlate,
} from './plate';
export { coarserPlan } from './surface/coarserPlan';
export {
  type PlanMeasures,
  type PlanSurface,
  type PlanSurfaceOptions,
  type PlanWays,
  planSurface,
} from './surface/planSurface';
export { drawKnobs, planUnknowns } from './surface/planUnknowns';
export { type SurfaceJob, type SurfaceRun, solveMany } from './surface/solveForSurface';
export { type StartingPlan, startingPlans } from './surface/startingPlans';
export { contactConductanceWPerM2K, radiationFilmWPerM2K, stillAirFilmWPerM2K } from './surfaceLoss';
export { alongTraverse, type TraverseHistory, type TraversePlace, traverse } from './traverse';
