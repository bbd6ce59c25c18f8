import { TemperbookError } from '../quantity';
import type { Failure } from './messages';
import { type Cell, joinLines, type Notebook } from './notebookFile';
import { remedyOf } from './remedyOf';

/** Lines shown before and after the failing one. */
const CONTEXT_LINES = 2;

/** A cell failed: the message says which, on what line, and why; `excerpt` shows the lines around it. */
export class CellError extends TemperbookError {
  readonly cellId: string | undefined;
  /** 1-based, counting every cell of the notebook that was run, text cells too. */
  readonly cellNumber: number;
  readonly line: number | undefined;
  readonly excerpt: string;

  constructor(file: string, notebook: Notebook, failure: Failure) {
    const { index, line, message } = failure;
    const cell = notebook.cells[index]!;
    const outer = failure.through.map((at) => ` (in ${placeOf(notebook, at.index, at.line)})`).join('');
    super(`${placeOf(notebook, index, line)}: ${message}${outer}`, {
      file,
      remedy: remedyOf(message, notebook),
    });
    this.cellId = cell.id;
    this.cellNumber = index + 1;
    this.line = line;
    this.excerpt = excerptOf(cell, line);
    if (failure.stack !== undefined) this.cause = failure.stack;
  }
}

function placeOf(notebook: Notebook, index: number, line: number | undefined): string {
  const id = notebook.cells[index]?.id;
  const cell = `cell ${index + 1} of ${notebook.cells.length}${id === undefined ? '' : ` ("${id}")`}`;
  return line === undefined ? cell : `${cell}, line ${line}`;
}

function excerptOf(cell: Cell, line: number | undefined): string {
  const lines = joinLines(cell.source).split('\n');
  const centre = line ?? 1;
  return lines
    .map((text, i) => `${i + 1 === line ? '>' : ' '} ${String(i + 1).padStart(3)} | ${text}`)
    .slice(Math.max(0, centre - 1 - CONTEXT_LINES), centre + CONTEXT_LINES)
    .join('\n');
}
