import { TemperbookError } from '../quantity';

/** What may stand in a table; nothing at all shows as an empty field. */
export type TableValue = string | number | boolean | null | undefined;

/** A row of a table, by column name. */
export type TableRow = { readonly [column: string]: TableValue };

/** A table in the order it is shown. */
export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number | boolean | null)[])[];
}

/**
 * Lines rows up under columns: those named, or all that occur, in the order they first do.
 * @throws TemperbookError for a column that no row has, and for a number that is none.
 */
export function tableOf(rows: readonly TableRow[], columns?: readonly string[]): Table {
  const known = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const shown = columns ?? known;
  const missing = rows.length > 0 ? shown.find((column) => !known.includes(column)) : undefined;
  if (missing !== undefined) {
    throw new TemperbookError(`the table has no column "${missing}"`, {
      expected: `one of ${known.join(', ')}`,
    });
  }
  return {
    columns: shown,
    rows: rows.map((row, i) => shown.map((column) => checked(row[column] ?? null, i + 1, column))),
  };
}

function checked<T extends string | number | boolean | null>(value: T, row: number, column: string): T {
  if (typeof value !== 'number' || Number.isFinite(value)) return value;
  throw new TemperbookError('a table value is not a number', {
    row,
    column,
    found: String(value),
    remedy: 'Leave the field empty where a value is missing',
  });
}
