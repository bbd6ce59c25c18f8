export { advanceMetal, type MetalTrack } from './advanceMetal';
export type { MetalState } from './metalState';
export type { ArrheniusTime, MetalFamily, PlausibleMetal, TemperKind } from './plausibleMetal';
export { checkStartYield, type PlausibleMetals, plausibleMetals } from './plausibleMetals';
export { type MetalStart, startOfMetal } from './startOfMetal';
export { type MetalOutcome, outcomeOfMetal, yieldOfState } from './yieldOfState';
