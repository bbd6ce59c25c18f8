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
    notebook = JSON.parse(text);
  } catch (error) {
    throw notANotebook(path, `text that is not JSON (${(error as Error).message})`);
  }
  if (!isNotebook(notebook)) throw notANotebook(path, 'other JSON, or an older format');
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
  return (
    nbformat === 4 &&
    typeof nbformat_minor === 'number' &&
    typeof metadata === 'object' &&
    Array.isArray(cells) &&
    cells.every(isCell)
  );
}

function isCell(cell: Partial<Cell> | null): cell is Cell {
  return (
    typeof cell === 'object' &&
    ['code', 'markdown', 'raw'].includes(cell?.cell_type ?? '') &&
    typeof cell?.metadata === 'object' &&
    (typeof cell.source === 'string' || Array.isArray(cell.source))
  );
}

/** The file's text as Jupyter writes it: one-space indent and a newline at the end. */
export function formatNotebook(notebook: Notebook): string {
  return `${JSON.stringify(notebook, null, 1)}\n`;
}
