export { buildRecord, type RecordParts } from './buildRecord';
export { checkRecord, readRecord } from './checkRecord';
export {
  type Change,
  type ConsideredOption,
  type Decision,
  type DecisionRecord,
  DISPOSITIONS,
  type Disposition,
  READING_KINDS,
  RECORD_FORM,
  type RecordedChannel,
  type RecordedChannelVerdict,
  type RecordedFigure,
  type RecordedLog,
  type RecordedVerdict,
  type SignOffLine,
} from './decisionRecord';
export { type Amendment, amendRecord } from './edition/amendRecord';
export { canonicalJson } from './edition/canonicalJson';
export { brokenParts } from './edition/seal';
export { amendRecordFile } from './files/amendRecordFile';
export { type Audit, type AuditFinding, auditFolder } from './files/auditFolder';
export { recordName } from './files/recordName';
export { type WrittenRecord, writeRecord } from './files/writeRecord';
export { exposureOfRecord } from './heat/exposureOfRecord';
export { type JudgedAnew, judgeAgain } from './heat/judgeAgain';
export type { RecordedDoubt, RecordedExposure } from './heat/recordedExposure';
export { JOB_FIELDS, type JobFieldName, type JobSheet, jobSheet, partOfSheet } from './jobSheet';
export { kitVersion } from './kitVersion';
export { recordHtml } from './recordHtml';
export { recordSchema } from './recordSchema';
export { stopCardHtml, writeStopCard } from './stopCard';
export * from './shelf';
export { type WallChart, wallChartHtml, writeWallChart } from './wallChart';
