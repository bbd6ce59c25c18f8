export {
  afterNewTreatment,
  type NewTreatmentOptions,
  type NewTreatmentStrength,
} from './afterNewTreatment';
export { type AllowedPeakOptions, allowedPeak } from './allowedPeak';
export { type AllowedTime, allowedTimes } from './allowedTimes';
export { considerRecovery, type RecoveryOption, type RecoveryOptions } from './considerRecovery';
export {
  type HeatDoubt,
  type HeatKnown,
  placeExposure,
  type SeenPlace,
  type SoftZonePlace,
} from './placeExposure';
export {
  type ComparePlansOptions,
  comparePlans,
  type PlanComparison,
} from './plans/comparePlans';
export {
  type FittedSide,
  type FittedZones,
  type FittedZonesOptions,
  fittedSoftZones,
} from './plans/fittedSoftZones';
export type { PlanMetalResult } from './plans/metalResult';
export { type PlacedProbe, type PlaceProbeOptions, placeProbe } from './plans/placeProbe';
export { PLAN_DOUBT, planExposure } from './plans/planExposure';
export { type PlanMetal, USUAL_KEEP_FROM_MM } from './plans/planPlaces';
export type { NamedPlan, PlanResult } from './plans/planResult';
export type { SearchOptions, Tried } from './plans/searcher';
export { highestInterpass, largestAmps, smallestWait } from './plans/searchPlans';
export {
  type RepairBead,
  type SmallRepair,
  type SmallRepairOptions,
  smallRepair,
} from './plans/smallRepair';
export { type StopReading, type StopReadingOptions, stopReading } from './plans/stopReading';
export { surfaceError } from './plans/surfaceError';
export type { Matter } from './plans/whatMatters';
export { type StopWord, wordAtReading } from './plans/wordAtReading';
export { type Placement, type PlacementOptions, type ProbePlace, probePlacement } from './probePlacement';
export { type ProbeAndLimit, readingAtLimit } from './readingAtLimit';
export type { SoftReach } from './softReach';
export { type SoftZone, type SoftZoneOptions, type SoftZonePoint, softZone } from './softZone';
export { softZoneSentence } from './softZoneSentence';
export { type HeatKind, type KeptMap, type StrengthMapOptions, strengthMap } from './strengthMap';
export { ageingPractice, THREE_WEEKS_S, TREATMENTS, type Treatment } from './treatments';
export { vickersHardness } from './vickersHardness';
export { weldDistanceMm } from './weldDistance';
