export { CellError } from './cellError';
export type { CellPlace, NotebookProgress } from './executeCells';
export { exportTable } from './exportTable';
export {
  attachmentRows,
  calibrationRows,
  codeExtentRow,
  misfitRows,
  placementRows,
  softReachRows,
  softZoneRows,
} from './heatRows';
export { findJupyter, JUPYTER_HELP, openJupyter, registerKernel } from './jupyter';
export { allowedTimeRows } from './mapRows';
export { type Notebook, readNotebook } from './notebookFile';
export { type ParameterValues, parseSettings } from './parameters';
export { faultRows, modelRows, passRows, recoveryRows, scenarioRows, verdictRows } from './reportRows';
export { type NotebookRun, type RunOptions, runNotebook } from './runNotebook';
export { showTable, tableText } from './showTable';
export { type TableRow, type TableValue, tableOf } from './table';
export {
  clockText,
  sideBySideRows,
  trustFigureRows,
  trustRows,
  trustSummaryRows,
  weldZoneRows,
} from './trustRows';
