export { CellError } from './cellError';
export type { CellPlace, NotebookProgress } from './executeCells';
export { exportTable } from './exportTable';
export { type Cell, type Notebook, type Output, readNotebook } from './notebookFile';
export { declaredParameters, type Parameter, type ParameterValues, parseSettings } from './parameters';
export { type NotebookRun, type RunOptions, runNotebook } from './runNotebook';
export { showTable, tableText } from './showTable';
export { type Table, type TableRow, type TableValue, tableOf } from './table';
