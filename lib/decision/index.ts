export type { AsWelded, PartAction, PartKnown, WayOn } from './action/action';
export { ACTION_IN_WORDS } from './action/partAction';
export { NOTHING_SAID, scheduleOf } from './action/waysOn';
export { CAUTIONS, STANDING_CAUTIONS } from './cautions';
export {
  compareScenarios,
  type Scenario,
  type ScenarioOptions,
  type ScenarioResult,
} from './compareScenarios';
export { exposureOf } from './exposureOf';
export { type CoaterTicket, coaterTicket, ticketText } from './heats/coaterTicket';
export type { HeatsLeft } from './heats/heatsLeft';
export type { HeatedPlace, HeatStep, HeatsOptions, HeatsVerdict } from './heats/heatsVerdict';
export { judgeHeats } from './heats/judgeHeats';
export { judgeOpenMetal, type OpenOptions } from './heats/judgeOpenMetal';
export { type AnswerIf, mixedAnswer, type OpenAnswer, type OpenVerdict } from './heats/mixedAnswer';
export { ovenOptions, readHeats, type ToldHeat, toldExposures } from './heats/toldHeat';
export { judge } from './judge';
export type { ChannelOptions, Instrument, JudgeOptions, ProbeRole } from './judgeOptions';
export { YOUR_LIMIT } from './limits';
export { madeWith } from './part/madeWith';
export { type PlaceSoFar, type SoFar, strengthSoFar } from './part/strengthSoFar';
export { placementSentence } from './placementSentence';
export type { PartExposures, PlaceExposure } from './places/partExposures';
export { type SettledLog, settleReadings } from './settleReadings';
export type * from './verdict';
export { VERDICT_IN_WORDS, WORD_RULE } from './wording';
export { worstChannel } from './worstChannel';
