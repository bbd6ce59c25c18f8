export { CellError } from './cellError';
export type { CellPlace, NotebookProgress } from './executeCells';
export { findJupyter, JUPYTER_HELP, openJupyter, registerKernel } from './jupyter';
export { type Notebook, readNotebook } from './notebookFile';
export { type ParameterValues, parseSettings } from './parameters';
export { type NotebookRun, type RunOptions, runNotebook } from './runNotebook';
