export { answerAsked } from './answerAsked';
export { type Asked, askedOf } from './asked';
export { chartOfJob, wholeChart } from './chartOfJob';
export type { FileOf, FileReadOptions } from './fileToRead';
export { checkOfProbes, type SaidCheck } from './heats/checkOfProbes';
export { heatOfJob, type ToldExposures } from './heats/heatOfJob';
export type { KnownHeat, SaidHeat } from './heats/saidHeat';
export { type ToldPart, toldPart } from './heats/toldPart';
export { type Job, type JobEarlier, type JobMetal, type JobProbe, logOf, withLog } from './job';
export type {
  JobFile,
  SaidChart,
  SaidEarlier,
  SaidLimits,
  SaidLot,
  SaidMeasuring,
  SaidMetal,
  SaidProbe,
  SaidRecovery,
  ShopDefaults,
} from './jobFile';
export { jobOptions, lotsOfJob } from './jobOptions';
export { DEFAULTS_FILE, newJobFolder } from './newJobFolder';
export { type OptionsAt, optionsAt, otherMetal, verdictAt } from './optionsAt';
export { type PlannedJob, plannedJob } from './plannedJob';
export { readDefaults } from './readDefaults';
export { type ReadJobOptions, readJob } from './readJob';
export { type JobRecovery, recoveryOfReview } from './recovery/recoveryOfReview';
export { type Review, type ReviewOptions, reviewJob } from './reviewJob';
export { type ReviewIf, reviewOpenJob } from './reviewOpenJob';
export { defaultsSchema, jobSchema } from './schema/jobSchema';
export { type JobZones, softZonesOfJob } from './softZonesOfJob';
export { FollowedFile } from './watch/followFile';
export { readingsNow } from './watch/readingsNow';
export { serveWatch, type WatchServer } from './watch/serveWatch';
export { type Watch, type WatchOptions, watchLog } from './watch/watchLog';
export { holdAt, type ProbeState, probeState, spend, type WatchState, watchState } from './watch/watchState';
export { headAndEnd, wholeLines } from './watch/wholeLines';
export { type JobWritten, writeJobFile } from './writeJobFile';
