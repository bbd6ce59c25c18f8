export { answerAsked } from './answerAsked';
export { type Asked, askedOf } from './asked';
export type { Job, JobEarlier, JobMetal, JobProbe } from './job';
export type {
  FileOf,
  FileReadOptions,
  JobFile,
  SaidEarlier,
  SaidLimits,
  SaidLot,
  SaidMeasuring,
  SaidMetal,
  SaidProbe,
  ShopDefaults,
} from './jobFile';
export { jobOptions } from './jobOptions';
export { DEFAULTS_FILE, newJobFolder } from './newJobFolder';
export { type OptionsAt, optionsAt, otherMetal, verdictAt } from './optionsAt';
export { readDefaults } from './readDefaults';
export { readJob } from './readJob';
export { type Review, type ReviewOptions, reviewJob } from './reviewJob';
export { defaultsSchema, jobSchema } from './schema/jobSchema';
export { FollowedFile } from './watch/followFile';
export { readingsNow } from './watch/readingsNow';
export { serveWatch, type WatchServer } from './watch/serveWatch';
export { type Watch, type WatchOptions, watchLog } from './watch/watchLog';
export { holdAt, type ProbeState, probeState, spend, type WatchState, watchState } from './watch/watchState';
export { headAndEnd, wholeLines } from './watch/wholeLines';
export { type JobWritten, writeJobFile } from './writeJobFile';
