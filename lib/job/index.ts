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
export { type JobWritten, writeJobFile } from './writeJobFile';
