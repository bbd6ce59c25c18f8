export { benchRows } from './benchRows';
export { couponResidualRows, couponRows } from './couponRows';
export { type FaultKind, faultsByKind } from './faultsByKind';
export { csvText } from './files/csvText';
export { exportTable } from './files/exportTable';
export type { Frame, FrameGroups } from './files/loadDanfo';
export { discard, nameNew, unfinishedOf, writeNew, writeWhole } from './files/writeWhole';
export {
  chartSensorRows,
  objectionRows,
  quenchRows,
  recoveryPlanRows,
  requirementDetailRows,
  requirementRows,
  routeRows,
  stageRows,
  temperMadeRows,
} from './furnaceRows';
export { glossaryRows } from './glossaryRows';
export {
  attachmentRows,
  calibrationRows,
  codeExtentRow,
  misfitRows,
  placementRows,
  softReachRows,
  softZoneRows,
} from './heatRows';
export { allowedTimeRows } from './mapRows';
export { matterRows, planRows } from './planRows';
export {
  doubtRows,
  faultRows,
  hiddenRows,
  passRows,
  recoveryRows,
  scenarioRows,
  verdictRows,
  wayRows,
} from './reportRows';
export type { ResidualRow } from './residualRow';
export { sayingReasonRows, sayingRows } from './sayingRows';
export {
  formRows,
  measuredWordRows,
  scoreRows,
  spikeDoubtRows,
  spikeTitle,
  trustSentences,
  wordRows,
} from './scoreRows';
export { checkRows, fillerRows, sizeRows } from './sectionRows';
export { type Table, type TableRow, type TableValue, tableOf } from './table';
export { tableInUsUnits } from './tableInUsUnits';
export { type JudgedReadingRow, type ReadingRow, tidyRows, toDataFrame } from './tidyRows';
export {
  clockText,
  sideBySideRows,
  trustFigureRows,
  trustRows,
  trustSummaryRows,
  weldZoneRows,
} from './trustRows';
export { frameRows, type WeldRow, weldFrameRows, weldRow } from './weldRow';
