import type { ReadOptions } from './readOptions';
import type { OpenReading } from './thermalLog';

/** One reading of one file: what every stage needs to decide, and where it writes down what it decided. */
export interface Reading {
  /** Name of the file in messages. */
  readonly file: string;
  readonly options: ReadOptions;
  /** Decisions, in sentences. */
  readonly notes: string[];
  /** Decisions that could have gone otherwise. */
  readonly open: OpenReading[];
}
