export { buildRecord, type RecordParts } from './buildRecord';
export { checkRecord, readRecord } from './checkRecord';
export { compareFigure } from './compare/compareFigure';
export { compareHtml, namesOfComparison, writeComparison } from './compare/compareHtml';
export { compareRows } from './compare/compareRows';
export { type Beside, type Comparison, compareWelds, type PlaceCompared } from './compare/compareWelds';
export { type Weld, type WeldPlace, weldOfRecord, weldOfVerdict } from './compare/weld';
export {
  ANY_FORM,
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
export { type JudgedAnew, judgeAgain, whyNotAgain } from './heat/judgeAgain';
export type { RecordedDoubt, RecordedExposure } from './heat/recordedExposure';
export { JOB_FIELDS, type JobFieldName, type JobSheet, jobSheet } from './jobSheet';
export { kitVersion } from './kitVersion';
export { namesIn } from './namesIn';
export { partOfSheet, sheetOfPart } from './partOfSheet';
export { recordHtml } from './recordHtml';
export { recordSchema } from './recordSchema';
export { changedSince } from './shelf/changedSince';
export { numberOf, readShelf, type Shelf, type ShelfPart, type ShelfProblem } from './shelf/readShelf';
export { type Selection, type ShelfFilter, selectParts } from './shelf/selectParts';
export { type ShelfEntry, type ShelfPlace, shelfEntry } from './shelf/shelfEntry';
export { namesOnShelf, type ShelfPage, shelfHtml } from './shelf/shelfHtml';
export { NOTE_FILE } from './shelf/shelfNote';
export { governing, type SinceThen, shelfRow } from './shelf/shelfRows';
export { MOST_WELDS, shelfTrends } from './shelf/shelfTrends';
export { writeShelf } from './shelf/writeShelf';
export { stopCardHtml, writeStopCard } from './stopCard';
export { type WallChart, wallChartHtml, writeWallChart } from './wallChart';
export { writeTicket } from './writeTicket';
