import { type ChildProcess, fork } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { TemperbookError } from '../quantity';
import { CellError } from './cellError';
import { CellOutputs } from './cellOutputs';
import type { CellSource, Failure, OutputPiece, RunEvent, RunRequest } from './messages';
import { hasTag, joinLines, type Notebook } from './notebookFile';

/** Lines of the child's last words kept for the message when it dies. */
const LAST_WORDS = 20;

/** A code cell as progress names it: `number` of `count` code cells, `title` from the heading above it. */
export interface CellPlace {
  readonly number: number;
  readonly count: number;
  readonly title: string;
  /** Whether its output is for a terminal: that of cells tagged `terminal`, or of all where none is. */
  readonly forTerminal: boolean;
}

/** What is told while a notebook runs. */
export type NotebookProgress =
  /** Sent when a cell starts, at 0 s, and then once a second, so that a long cell shows that it is alive. */
  | { readonly state: 'running'; readonly cell: CellPlace; readonly seconds: number }
  | { readonly state: 'finished'; readonly cell: CellPlace; readonly seconds: number }
  | { readonly state: 'output'; readonly cell: CellPlace; readonly piece: OutputPiece };

/** How long a cell may run unless the caller says otherwise, s. */
export const CELL_LIMIT_S = 600;

/**
 * Executes the code cells of the notebook that was read from `path`, in a child process that starts in its
 * folder.
 * @throws CellError at the first failure.
 */
export function executeCells(
  path: string,
  notebook: Notebook,
  onProgress: (progress: NotebookProgress) => void,
  cellLimitS: number = CELL_LIMIT_S,
): Promise<CellOutputs> {
  const cells = notebook.cells.flatMap((cell, index) =>
    cell.cell_type === 'code' ? [{ index, source: joinLines(cell.source) }] : [],
  );
  const places = placesOf(notebook, cells);
  const outputs = new CellOutputs();
  const child = fork(join(__dirname, 'worker.js'), {
    cwd: dirname(resolve(path)),
    execArgv: [],
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  });
  const lastWords = collectLastWords(child);
  // A cell that never yields does not see that its parent is gone.
  const endWithParent = () => child.kill('SIGKILL');
  process.once('exit', endWithParent);

  return new Promise((resolveOutputs, reject) => {
    let current = cells[0]?.index ?? 0;
    let startedMs: number | undefined;
    let outcome: (() => void) | undefined;
    const report = (state: 'running' | 'finished', seconds: number) =>
      onProgress({ state, cell: places.get(current)!, seconds });
    const runningS = () => (performance.now() - (startedMs ?? performance.now())) / 1000;
    const failed = (failure: Failure) => () => reject(new CellError(path, notebook, failure));
    const alive = setInterval(() => {
      if (runningS() > cellLimitS) {
        outcome ??= failed({ index: current, message: tooLong(cellLimitS), through: [] });
        child.kill('SIGKILL');
      } else if (runningS() >= 1) report('running', runningS());
    }, 1000);

    child.on('message', (event: RunEvent) => {
      if (event.kind === 'started') {
        current = event.index;
        startedMs = performance.now();
        report('running', 0);
      } else if (event.kind === 'output') {
        outputs.add(event.index, event.piece);
        onProgress({ state: 'output', cell: places.get(event.index)!, piece: event.piece });
      } else if (event.kind === 'finished') {
        report('finished', runningS());
        startedMs = undefined;
      } else {
        outcome = event.kind === 'failed' ? failed(event.failure) : () => resolveOutputs(outputs);
      }
    });
    child.on('error', (error) => {
      outcome = () => reject(new TemperbookError('the notebook cannot be started', { found: error.message }));
    });
    child.on('close', (code, signal) => {
      clearInterval(alive);
      process.off('exit', endWithParent);
      const how = signal === null ? `ended with exit code ${code}` : `was killed (${signal})`;
      const message = [`the process ${how} while this cell ran`, ...lastWords].join('\n');
      (outcome ?? failed({ index: current, message, through: [] }))();
    });
    child.send({ cells } satisfies RunRequest);
  });
}

const tooLong = (limitS: number) =>
  `the cell ran longer than the ${limitS} s it may take, and was ended; allow more with cellLimitS, or make it shorter`;

function placesOf(notebook: Notebook, cells: readonly CellSource[]): Map<number, CellPlace> {
  const isChosen = (index: number) => hasTag(notebook.cells[index]!, 'terminal');
  const anyChosen = cells.some(({ index }) => isChosen(index));
  return new Map(
    cells.map(({ index }, i) => [
      index,
      {
        number: i + 1,
        count: cells.length,
        title: titleOf(notebook, index),
        forTerminal: !anyChosen || isChosen(index),
      },
    ]),
  );
}

/** What the engine itself writes when it dies, such as on running out of memory. */
function collectLastWords(child: ChildProcess): string[] {
  const lines: string[] = [];
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    lines.push(...text.split('\n').filter((line) => line.trim() !== ''));
    lines.splice(0, lines.length - LAST_WORDS);
  });
  child.stdout?.resume();
  return lines;
}

/** The nearest heading above a cell, which says what it is for. */
function titleOf(notebook: Notebook, index: number): string {
  for (const cell of notebook.cells.slice(0, index).reverse()) {
    const heading =
      cell.cell_type === 'markdown' ? /^#+ +(.*)$/m.exec(joinLines(cell.source))?.[1] : undefined;
    if (heading !== undefined) return heading.trim();
  }
  return notebook.cells[index]?.id ?? '';
}
