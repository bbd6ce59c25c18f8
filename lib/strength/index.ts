export { keptAfterReageing, keptAfterRest, keptAtEnd, THREE_WEEKS_S } from './afterWelding';
export type { Assumption } from './assumption';
export { combineEffects, type Effect, effect, effectSentences } from './effects';
export { type ChannelOptions, DEFAULT_ALLOWANCE, type JudgeOptions } from './judgeOptions';
export { measuredOf, measuredYield } from './measuredYield';
export type { ModelLine } from './modelLine';
export { modelLines } from './modelLines';
export { precipitateLines } from './precipitateLines';
export { type AgedStart, precipitateSets } from './precipitateSets';
export {
  type ProbeDoubt,
  probeAssumptions,
  type RecordCases,
  recordCases,
  USUAL_WIRE,
  undefinedTolerance,
} from './recordCases';
export { ageingPractice, TREATMENTS, type Treated, type Treatment, treated } from './treatments';
export { vickersHardness } from './vickersHardness';
