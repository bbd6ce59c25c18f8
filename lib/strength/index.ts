export { allowanceOf, DEFAULT_ALLOWANCE } from './allowance';
export type { Assumption } from './assumption';
export { type Contribution, contributions } from './contributions';
export type { FamilyBand } from './familyBands';
export { jointChance } from './jointChance';
export { type LotWeights, lotsSentence, lotsSpeak, MUTE_BELOW, weightsOfLots } from './lot';
export { type LotDraws, lotDraws } from './lotDraws';
export { type MeasuredBefore, measuredOf, measuredYield } from './measuredYield';
export { drawMetals, type Metal, type MetalDraws } from './metal';
export { type Draws, type DrawsOnTheWay, runDraws } from './runDraws';
export {
  CLOSE_DRAWS,
  isCloseToRule,
  MOST_DRAWS,
  product,
  ROUTINE_DRAWS,
  type StrengthAfter,
  type StrengthOptions,
  type StrengthTrack,
  strengthAfter,
} from './strengthAfter';
export { bandOfDraws } from './summary';
export { KEPT_FROM, LOST_UP_TO, type VerdictWord, WORST_FIRST, wordOf } from './verdictWord';
