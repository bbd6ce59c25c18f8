import { inUsUnits } from '../quantity';
import type { Table } from './table';

/** A table as a US shop reads it, headings and texts by `inUsUnits`; a number by itself is data and stays. */
export const tableInUsUnits = ({ columns, rows }: Table, names: readonly string[] = []): Table => ({
  columns: columns.map((column) => inUsUnits(column, names)),
  rows: rows.map((row) => row.map((value) => (typeof value === 'string' ? inUsUnits(value, names) : value))),
});
