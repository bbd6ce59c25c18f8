export { acrossDraws } from './acrossDraws';
export { condense } from './condense';
export { historyAt, multipleAt, placeInRange, runAt, temperaturesAt, WHY_LOW_STREAM } from './drawOf';
export { editExposure } from './editExposure';
export { type ArrheniusClock, cumulativeEquivalentTime, equivalentTime } from './equivalentTime';
export {
  asExposure,
  type BlindTime,
  checkExposure,
  DOUBT_KINDS,
  type Doubt,
  type DoubtKind,
  type Exposure,
  exactly,
  type RunsDoubt,
  type ShiftDoubt,
  type Spread,
} from './exposure';
export { type ExposureShare, exposureShare } from './exposureShare';
export { findPasses, type PassOptions } from './findPasses';
export { type Heat, parseHeats } from './heats/parseHeats';
export { secondsOf } from './heats/secondsOf';
export { onOneClock } from './onOneClock';
export type { Pass } from './pass';
export { type Peak, peak } from './peak';
export { parseCheckStep } from './probeCheck/parseCheckStep';
export { type CheckedProbe, type CheckStep, checkProbes } from './probeCheck/probeCheck';
export {
  betweenDoubt,
  fixingDoubt,
  type Probe,
  type ProbeRecord,
  probeExposure,
  risesOf,
  USUAL_WIRE,
  wireDoubts,
  wireToleranceC,
  withFixing,
  withRises,
} from './record';
export { type SamplingLoss, samplingLoss } from './samplingLoss';
export { signWeights, weightsOfSigns } from './seen/signWeights';
export { stickOf } from './seen/stickOf';
export {
  type SpotReading,
  type StickMark,
  type TemperatureSign,
  type WeighableSign,
  weighableSigns,
} from './seen/temperatureSigns';
export { withSigns } from './seen/withSigns';
export { type SamplingNeed, slowestInterval } from './slowestInterval';
export { coolingRate, heatingRate } from './steepestRate';
export { timeAbove } from './timeAbove';
export { boundBlind } from './told/boundBlind';
export { parsePoints } from './told/parsePoints';
export { pointsExposure, type WrittenPoints } from './told/pointsExposure';
