import { TemperbookError } from '../../quantity';
import type { TableRow } from '../table';

/** A data frame of danfojs-node: what is most asked of one. It has more; see danfojs. */
export interface Frame {
  readonly columns: readonly string[];
  /** Rows and columns. */
  readonly shape: readonly number[];
  readonly values: readonly unknown[];
  /** Names of the rows: their numbers, or those of `describe`. */
  readonly index: readonly (string | number)[];
  describe(): Frame;
  groupby(columns: readonly string[]): FrameGroups;
  sortValues(column: string, options?: { readonly ascending?: boolean }): Frame;
  loc(part: { readonly rows?: readonly unknown[]; readonly columns?: readonly string[] }): Frame;
  head(rows?: number): Frame;
  print(): void;
}

/** Rows of a frame that are alike in some columns. */
export interface FrameGroups {
  col(columns: readonly string[]): FrameGroups;
  mean(): Frame;
  min(): Frame;
  max(): Frame;
  count(): Frame;
}

/** The little of danfojs-node that is used, written out here so that the kit's types stand without it. */
interface Danfo {
  readonly DataFrame: new (
    rows: readonly TableRow[] | readonly unknown[][],
    options?: { readonly columns: readonly string[] },
  ) => Frame;
  toExcel(frame: Frame, options: { filePath: string; sheetName: string }): void;
}

/** danfojs-node of the notebook's folder: it belongs there, not to the kit. @throws TemperbookError where it is missing. */
export function loadDanfo(): Danfo {
  let id: string;
  try {
    id = require.resolve('danfojs-node', { paths: [process.cwd(), __dirname] });
  } catch {
    throw new TemperbookError(
      'data frames and .xlsx files are made by danfojs-node, which is not installed',
      {
        remedy:
          "Install it in the notebook's folder (npm install danfojs-node), or write a .csv file, which needs nothing",
      },
    );
  }
  return require(id);
}
