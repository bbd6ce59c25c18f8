export { allowedPeak } from './allowedPeak';
export { judgedMap } from './judgedMap';
export { type ProbeAndLimit, readingAtLimit } from './readingAtLimit';
export type { SoftReach } from './softReach';
export {
  type HeatDoubt,
  type SoftZone,
  type SoftZoneOptions,
  type SoftZonePlace,
  type SoftZonePoint,
  softZone,
} from './softZone';
export { softZoneSentence } from './softZoneSentence';
