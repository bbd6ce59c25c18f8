export { beforeMeasuring, type MeasuringPlan } from './beforeMeasuring';
export { brinellOfVickers, rockwellOfVickers } from './hardnessScales';
export { checkReadings, type Reading, type ReadingKind } from './reading';
export { type ReadingModel, readingModel } from './readingModel';
export { type ReadingWeights, type ReadPlace, readingWeights } from './readingWeights';
export { type SignWeights, signWeights } from './seen/signWeights';
export {
  type SpotReading,
  type StickMark,
  type TemperatureSign,
  weighableSigns,
} from './seen/temperatureSigns';
