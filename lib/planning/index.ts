export {
  afterNewTreatment,
  type NewTreatmentOptions,
  type NewTreatmentStrength,
} from './afterNewTreatment';
export { type AllowedPeakOptions, allowedPeak } from './allowedPeak';
export { type AllowedTime, allowedTimes } from './allowedTimes';
export { considerRecovery, type RecoveryOption, type RecoveryOptions } from './considerRecovery';
export { type HeatDoubt, type HeatKnown, placeExposure, type SoftZonePlace } from './placeExposure';
export { type Placement, type PlacementOptions, type ProbePlace, probePlacement } from './probePlacement';
export { type ProbeAndLimit, readingAtLimit } from './readingAtLimit';
export type { SoftReach } from './softReach';
export { type SoftZone, type SoftZoneOptions, type SoftZonePoint, softZone } from './softZone';
export { softZoneSentence } from './softZoneSentence';
export { type HeatKind, type KeptMap, type StrengthMapOptions, strengthMap } from './strengthMap';
export { ageingPractice, THREE_WEEKS_S, TREATMENTS, type Treatment } from './treatments';
export { vickersHardness } from './vickersHardness';
