import { mkdirSync, realpathSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { TemperbookError } from '../quantity';
import { writeWhole } from '../report';
import type { CellOutputs } from './cellOutputs';
import { executeCells, type NotebookProgress } from './executeCells';
import { type Cell, formatNotebook, type Notebook, type Output, readNotebook } from './notebookFile';
import { isLiveFigure, PLOTLY } from './page/displayHtml';
import { notebookHtml } from './page/notebookHtml';
import { proseInUsUnits } from './page/proseInUsUnits';
import { declaredParameters, injectParameters, type ParameterValues } from './parameters';

/** How a notebook is run. */
export interface RunOptions {
  /**
   * Values for the variables of the cell tagged `parameters`. One called `out` defaults to `outFolder`; where `units` is
   * set to `us`, the words between the cells show them too.
   */
  readonly parameters?: ParameterValues;
  /** Where the copy with outputs and the HTML page go; created if need be. */
  readonly outFolder: string;
  /** Default `with code`. */
  readonly html?: 'with code' | 'results only';
  /** Longest time a cell may run, s; default 600. */
  readonly cellLimitS?: number;
  readonly onProgress?: (progress: NotebookProgress) => void;
}

/** What a run left behind. */
export interface NotebookRun {
  /** The copy of the notebook with its outputs. */
  readonly notebookPath: string;
  /** The self-contained page. */
  readonly htmlPath: string;
}

/**
 * Runs a notebook without Jupyter, in a process of its own that starts in the notebook's folder, and writes
 * a copy with outputs and a self-contained HTML page into `outFolder`. Stops at the first failure, a promise
 * rejected without anyone waiting for it included; then nothing is written.
 * @throws CellError when a cell fails, TemperbookError for a bad file, parameter or folder.
 */
export async function runNotebook(path: string, options: RunOptions): Promise<NotebookRun> {
  const source = readNotebook(path);
  const outFolder = prepareOutFolder(path, options.outFolder);
  const parameters = withOut(source, options.parameters ?? {}, outFolder);
  const notebook = injectParameters(source, parameters);
  const outputs = await executeCells(
    path,
    notebook,
    options.onProgress ?? (() => undefined),
    options.cellLimitS,
  );

  const done = withOutputs(notebook, outputs);
  const finished = parameters.units === 'us' ? proseInUsUnits(done) : done;
  const title = basename(path, '.ipynb');
  const page = notebookHtml(finished, { title, code: options.html !== 'results only' });
  const notebookPath = join(outFolder, `${title}.ipynb`);
  const htmlPath = join(outFolder, `${title}.html`);
  writeWhole(notebookPath, (file) => writeFileSync(file, formatNotebook(withStillPictures(finished))));
  writeWhole(htmlPath, (file) => writeFileSync(file, page));
  return { notebookPath, htmlPath };
}

/** A parameter called `out` is where the notebook writes files of its own: beside its results, unless given. */
function withOut(notebook: Notebook, parameters: ParameterValues, outFolder: string): ParameterValues {
  const asked = declaredParameters(notebook).some(({ name, isPath }) => name === 'out' && isPath);
  return asked ? { out: outFolder, ...parameters } : parameters;
}

function prepareOutFolder(path: string, outFolder: string): string {
  const folder = resolve(outFolder);
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new TemperbookError('the folder for the results cannot be made', {
      file: outFolder,
      found: (error as Error).message,
    });
  }
  if (realpathSync(folder) === realpathSync(dirname(path))) {
    throw new TemperbookError('the results would overwrite the notebook itself', {
      file: outFolder,
      remedy: 'Choose another folder for them',
    });
  }
  return folder;
}

/** A saved notebook holds a figure once: the picture, which every front end shows. */
function withStillPictures(notebook: Notebook): Notebook {
  const saved = (output: Output): Output => {
    if (output.output_type !== 'display_data' || !isLiveFigure(output)) return output;
    const { [PLOTLY]: _, ...data } = output.data;
    return { ...output, data };
  };
  const cells = notebook.cells.map((cell) =>
    cell.outputs ? { ...cell, outputs: cell.outputs.map(saved) } : cell,
  );
  return { ...notebook, cells };
}

function withOutputs(notebook: Notebook, outputs: CellOutputs): Notebook {
  let count = 0;
  const cells = notebook.cells.map((cell, index): Cell => {
    if (cell.cell_type !== 'code') return cell;
    count += 1;
    return { ...cell, execution_count: count, outputs: outputs.of(index) };
  });
  return { ...notebook, cells };
}
