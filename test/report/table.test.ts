import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { showTable, tableText } from '../../lib/figure';
import { exportTable, type TableRow, tableOf } from '../../lib/report';
import { fc } from '../setup/fc';

const ROWS: TableRow[] = [
  { Channel: 'TC1 <hinge>', 'Peak °C': 248.123456789, verdict: 'kept' },
  { Channel: 'TC2, "tube"', 'Peak °C': null, verdict: 'lost' },
];

describe('tableOf', () => {
  it('takes all columns that occur, in the order they first do, or those named', () => {
    expect(tableOf([{ a: 1 }, { b: 2, a: 3 }])).toEqual({
      columns: ['a', 'b'],
      rows: [
        [1, null],
        [3, 2],
      ],
    });
    expect(tableOf(ROWS, ['verdict'])).toEqual({ columns: ['verdict'], rows: [['kept'], ['lost']] });
  });

  it('refuses a column nobody has and a number that is none', () => {
    expect(() => tableOf(ROWS, ['peak'])).toThrow(
      'no column "peak". Expected: one of Channel, Peak °C, verdict',
    );
    expect(() => tableOf([{ a: 1 }, { a: Number.NaN }])).toThrow(
      'row 2, column "a": a table value is not a number',
    );
  });
});

describe('showTable', () => {
  it('lines text up, numbers to the right', () => {
    expect(tableText(tableOf(ROWS))).toBe(
      [
        'Channel            Peak °C  verdict',
        '───────────  ─────────────  ───────',
        'TC1 <hinge>  248.123456789  kept',
        'TC2, "tube"                 lost',
      ].join('\n'),
    );
  });

  it('displays escaped HTML beside the text, by the way tslab displays', () => {
    const write = vi.fn();
    const tslab: { lastWriteDisplayData: unknown } = require('tslab/dist/jupyter');
    tslab.lastWriteDisplayData = write;
    showTable(ROWS);
    tslab.lastWriteDisplayData = null;
    const { data } = write.mock.calls[0]![0];
    expect(data['text/plain']).toBe(tableText(tableOf(ROWS)));
    expect(data['text/html']).toContain('<td style="text-align:left">TC1 &lt;hinge&gt;</td>');
    expect(data['text/html']).toContain('<td style="text-align:right">248.123456789</td>');
  });
});

describe('exportTable', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'table-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const readCsv = (path: string) => Papa.parse<string[]>(readFileSync(path, 'utf8').trimEnd()).data;

  it('writes CSV that another reader reads back to the last digit', () => {
    const path = join(folder, 'a.csv');
    exportTable([...ROWS, { Channel: 'clock', 'Peak °C': 1700000000123.25, verdict: '' }], path);
    expect(readCsv(path)).toEqual([
      ['Channel', 'Peak °C', 'verdict'],
      ['TC1 <hinge>', '248.123456789', 'kept'],
      ['TC2, "tube"', '', 'lost'],
      ['clock', '1700000000123.25', ''],
    ]);
    expect(readdirSync(folder)).toEqual(['a.csv']);
  });

  it('keeps any text and any number through CSV', () => {
    const path = join(folder, 'any.csv');
    const row = fc.tuple(fc.string({ minLength: 1 }), fc.double({ noNaN: true, noDefaultInfinity: true }));
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), (rows) => {
        exportTable(
          rows.map(([text, number]) => ({ text, number })),
          path,
        );
        const read = Papa.parse<string[]>(readFileSync(path, 'utf8').replace(/\n$/, ''), {
          newline: '\n',
          delimiter: ',',
        }).data;
        // CSV has no sign for a negative zero.
        expect(read.slice(1).map(([text, number]) => [text, Number(number) + 0])).toEqual(
          rows.map(([text, number]) => [text, number + 0]),
        );
      }),
      { numRuns: 200 },
    );
  });

  it('writes a spreadsheet with numbers as numbers, unrounded', () => {
    const path = join(folder, 'a.xlsx');
    exportTable([{ 'time s': 1700000000123.25, note: '=1+1' }], path);
    const xlsx = require('xlsx');
    const book = xlsx.readFile(path);
    expect(xlsx.utils.sheet_to_json(book.Sheets.Table)).toEqual([
      { 'time s': 1700000000123.25, note: '=1+1' },
    ]);
  });

  it('refuses other kinds of file, and a folder that is not there', () => {
    expect(() => exportTable(ROWS, 'a.pdf')).toThrow('ending in .csv or .xlsx');
    expect(() => exportTable(ROWS, join(folder, 'none', 'a.csv'))).toThrow(
      'none/a.csv: the file cannot be written',
    );
  });
});
