export { buildRecord, type RecordParts } from './buildRecord';
export { checkRecord, readRecord } from './checkRecord';
export {
  type ConsideredOption,
  type Decision,
  type DecisionRecord,
  DISPOSITIONS,
  type Disposition,
  RECORD_FORM,
  type RecordedChannel,
  type RecordedFigure,
  type RecordedLog,
  type RecordedVerdict,
  type SignOffLine,
} from './decisionRecord';
export { JOB_FIELDS, type JobFieldName, type JobSheet, jobSheet } from './jobSheet';
export { recordHtml } from './recordHtml';
export { recordSchema } from './recordSchema';
export { type WallChart, wallChartHtml, writeWallChart } from './wallChart';
export { recordName, type WrittenRecord, writeRecord } from './writeRecord';
