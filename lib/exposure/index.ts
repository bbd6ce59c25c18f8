export { type ArrheniusClock, cumulativeEquivalentTime, equivalentTime } from './equivalentTime';
export { type ExposureShare, exposureShare } from './exposureShare';
export { findPasses, type PassOptions } from './findPasses';
export type { Pass } from './pass';
export { type Peak, peak } from './peak';
export { type SamplingLoss, samplingLoss } from './samplingLoss';
export { type SamplingNeed, slowestInterval } from './slowestInterval';
export { coolingRate, heatingRate } from './steepestRate';
export { timeAbove } from './timeAbove';
