export { beforeMeasuring, type MeasuringPlan } from './beforeMeasuring';
export { brinellOfVickers, rockwellOfVickers } from './hardnessScales';
export { checkReadings, type Reading, type ReadingKind } from './reading';
export { type ReadingModel, readingModel } from './readingModel';
export { type ReadingWeights, type ReadPlace, readingWeights } from './readingWeights';
