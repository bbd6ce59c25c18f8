import { writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import { TemperbookError } from '../../quantity';
import { type Table, type TableRow, tableOf } from '../table';
import { csvText } from './csvText';
import { loadDanfo } from './loadDanfo';
import { writeWhole } from './writeWhole';

/**
 * Writes a table to a `.csv` file, or to an `.xlsx` file by means of danfojs-node, which is loaded only for that.
 * Numbers arrive in the file with all their digits.
 * @throws TemperbookError for another kind of file, a column that no row has, a number that is none, a place that cannot
 *   be written to, and an `.xlsx` file where danfojs-node is not installed.
 */
export function exportTable(rows: readonly TableRow[], path: string, columns?: readonly string[]): void {
  const table = tableOf(rows, columns);
  const kind = extname(path).toLowerCase();
  if (kind === '.csv') writeWhole(path, (file) => writeFileSync(file, csvText(table)));
  else if (kind === '.xlsx') writeWhole(path, (file) => writeSpreadsheet(table, file));
  else
    throw new TemperbookError('this kind of table file is not known', {
      file: path,
      expected: 'a name ending in .csv or .xlsx',
    });
}

function writeSpreadsheet({ columns, rows }: Table, file: string): void {
  const { DataFrame, toExcel } = loadDanfo();
  const frame = new DataFrame(
    rows.map((row) => [...row]),
    { columns: [...columns] },
  );
  toExcel(frame, { filePath: file, sheetName: 'Table' });
}
