import { readFileSync } from 'node:fs';
import { TemperbookError } from '../quantity';

/** What one display shows, once per MIME type; the front end picks the richest it knows. */
export type MimeBundle = { readonly [mime: string]: unknown };

/** Text the cell printed. */
export interface StreamOutput {
  readonly output_type: 'stream';
  readonly name: 'stdout' | 'stderr';
  readonly text: string | readonly string[];
}

/** A figure or table the cell displayed. */
export interface DisplayOutput {
  readonly output_type: 'display_data';
  readonly data: MimeBundle;
  readonly metadata: { readonly [key: string]: unknown };
}

/** What a cell printed or showed. */
export type Output = StreamOutput | DisplayOutput;

/** A cell of a notebook file (nbformat 4.5); unknown fields are kept as they are. */
export interface Cell {
  readonly cell_type: 'code' | 'markdown' | 'raw';
  /** Since nbformat 4.5; older files have none. */
  readonly id?: string;
  readonly metadata: { readonly tags?: readonly string[]; readonly [key: string]: unknown };
  readonly source: string | readonly string[];
  readonly execution_count?: number | null;
  readonly outputs?: readonly Output[];
}

/** A notebook file (nbformat 4). */
export interface Notebook {
  readonly nbformat: number;
  readonly nbformat_minor: number;
  readonly metadata: { readonly [key: string]: unknown };
  readonly cells: readonly Cell[];
}

/** The format stores long text as a list of lines or as one string. */
export function joinLines(text: string | readonly string[]): string {
  return typeof text === 'string' ? text : text.join('');
}

/** Whether a cell carries a tag. */
export function hasTag(cell: Cell, tag: string): boolean {
  return cell.metadata.tags?.includes(tag) ?? false;
}

/**
 * Reads a notebook file.
 * @throws TemperbookError when it cannot be read or is not nbformat 4.
 */
export function readNotebook(path: string): Notebook {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    throw new TemperbookError('the notebook cannot be opened', {
      file: path,
      found: (error as Error).message,
      remedy: 'Check the path; notebooks end in .ipynb',
    });
  }
  let notebook: unknown;
  try {
    notebook = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch (error) {
    throw notANotebook(path, `text that is not JSON (${(error as Error).message})`);
  }
  if (!isNotebook(notebook)) throw notANotebook(path, 'other JSON, or an older format');
  notebook.cells.forEach((cell, index) => {
    const wrong = wrongCell(cell);
    if (wrong !== undefined)
      throw new TemperbookError(`cell ${index + 1} of the notebook is broken`, {
        file: path,
        found: wrong,
        expected: 'a cell of nbformat 4 with cell_type, metadata and source',
        remedy: 'Open the notebook in Jupyter and save it again',
      });
  });
  return notebook;
}

function notANotebook(path: string, found: string): TemperbookError {
  return new TemperbookError('this file is not a notebook', {
    file: path,
    found,
    expected: 'a Jupyter notebook, format 4',
    remedy: 'To review a log file, use: temperbook review <log file>',
  });
}

function isNotebook(value: unknown): value is Notebook {
  if (typeof value !== 'object' || value === null) return false;
  const { nbformat, nbformat_minor, metadata, cells } = value as Partial<Notebook>;
  return nbformat === 4 && typeof nbformat_minor === 'number' && isObject(metadata) && Array.isArray(cells);
}

const isObject = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isTexts = (value: unknown) => Array.isArray(value) && value.every((item) => typeof item === 'string');

/** What is wrong with a cell; undefined when nothing is. */
function wrongCell(cell: Partial<Cell> | null): string | undefined {
  if (!isObject(cell)) return `${JSON.stringify(cell)} in place of a cell`;
  const { cell_type, metadata, source } = cell;
  if (!['code', 'markdown', 'raw'].includes(cell_type ?? '')) return `cell_type ${JSON.stringify(cell_type)}`;
  if (!isObject(metadata)) return `metadata ${JSON.stringify(metadata)}`;
  if (metadata.tags !== undefined && !isTexts(metadata.tags)) return `tags ${JSON.stringify(metadata.tags)}`;
  if (typeof source !== 'string' && !isTexts(source)) return `source ${JSON.stringify(source)}`;
  return undefined;
}

/** The file's text as Jupyter writes it: one-space indent and a newline at the end. */
export function formatNotebook(notebook: Notebook): string {
  return `${JSON.stringify(notebook, null, 1)}\n`;
}
