import type { MimeBundle } from './notebookFile';

/** A piece of output as it leaves a cell. */
export type OutputPiece =
  | { readonly kind: 'text'; readonly stream: 'stdout' | 'stderr'; readonly text: string }
  | {
      readonly kind: 'display';
      readonly data: MimeBundle;
      readonly metadata: { readonly [key: string]: unknown };
      /** Displays with a name can be replaced by a later one of the same name. */
      readonly displayId?: string;
      readonly update: boolean;
    };

/** Why a cell failed. */
export interface Failure {
  /** Index of the cell in the notebook. */
  readonly index: number;
  readonly message: string;
  /** 1-based line within that cell, when known. */
  readonly line?: number;
  /** Where another cell's function was when it threw, innermost first. */
  readonly through: readonly CellLine[];
  /** The stack as the engine wrote it, for whoever debugs the library. */
  readonly stack?: string;
}

/** A line of a cell. */
export interface CellLine {
  readonly index: number;
  readonly line: number;
}

/** A code cell as the parent sends it to the child. */
export interface CellSource {
  readonly index: number;
  readonly source: string;
}

/** From the runner to the child that executes cells: once, at the start. */
export interface RunRequest {
  readonly cells: readonly CellSource[];
}

/** From the child to the runner. */
export type RunEvent =
  | { readonly kind: 'started'; readonly index: number }
  | { readonly kind: 'output'; readonly index: number; readonly piece: OutputPiece }
  | { readonly kind: 'finished'; readonly index: number }
  | { readonly kind: 'failed'; readonly failure: Failure }
  | { readonly kind: 'done' };
