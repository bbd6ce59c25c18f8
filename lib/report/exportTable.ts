import { writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import { TemperbookError } from '../quantity';
import { type Table, type TableRow, tableOf } from './table';
import { writeWhole } from './writeWhole';

/** The little of danfojs-node that is used, written out here so that the kit's types stand without it. */
interface Danfo {
  readonly DataFrame: new (rows: unknown[][], options: { columns: string[] }) => object;
  toCSV(frame: object, options: { download: false }): string;
  toExcel(frame: object, options: { filePath: string; sheetName: string }): void;
}

/**
 * Writes a table to a `.csv` or `.xlsx` file by means of danfojs-node, which is loaded only here and only
 * writes: its arithmetic is in single precision, so nothing is ever calculated with it. Numbers arrive in
 * the file with all their digits.
 * @throws TemperbookError where danfojs-node is not installed, for another kind of file, a column that no row
 *   has, a number that is none, and a place that cannot be written to.
 */
export function exportTable(rows: readonly TableRow[], path: string, columns?: readonly string[]): void {
  const table = tableOf(rows, columns);
  const kind = extname(path).toLowerCase();
  if (kind !== '.csv' && kind !== '.xlsx') {
    throw new TemperbookError('this kind of table file is not known', {
      file: path,
      expected: 'a name ending in .csv or .xlsx',
    });
  }
  const danfo = loadDanfo();
  if (kind === '.csv') writeWhole(path, (file) => writeFileSync(file, csvText(danfo, table)));
  else {
    const frame = new danfo.DataFrame(
      table.rows.map((row) => [...row]),
      { columns: [...table.columns] },
    );
    writeWhole(path, (file) => danfo.toExcel(frame, { filePath: file, sheetName: 'Table' }));
  }
}

/** danfojs-node separates fields but never quotes them: text that needs quotes is given to it with them. */
function csvText(danfo: Danfo, { columns, rows }: Table): string {
  const quoted = rows.map((row) => row.map((value) => (typeof value === 'string' ? quote(value) : value)));
  const frame = new danfo.DataFrame(quoted, { columns: columns.map(quote) });
  return danfo.toCSV(frame, { download: false });
}

function quote(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}

function loadDanfo(): Danfo {
  let id: string;
  try {
    // It belongs to the notebook's folder, not to the kit.
    id = require.resolve('danfojs-node', { paths: [process.cwd(), __dirname] });
  } catch {
    throw new TemperbookError('tables are written by danfojs-node, which is not installed', {
      remedy: "Install it in the notebook's folder: npm install danfojs-node",
    });
  }
  return require(id);
}
