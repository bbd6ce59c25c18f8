import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { type ReadOptions, readLog } from '../../lib/log';
import { TemperbookError } from '../../lib/quantity';
import { lines, rows } from './write';

const caught = (bytes: Uint8Array, options?: ReadOptions): TemperbookError => {
  try {
    readLog(bytes, options);
  } catch (error) {
    if (error instanceof TemperbookError) return error;
    throw error;
  }
  throw new Error('the log was read');
};

describe('an unreadable file says what and where', () => {
  const name = 'mast-foot.csv';
  it.each<readonly [string, Uint8Array, RegExp, ReadOptions?]>([
    ['empty', Buffer.alloc(0), /^mast-foot\.csv: The file is empty.*Export the log again/],
    ['blank lines only', lines('', '', ''), /row 1: The file holds no text/],
    ['zero bytes only', Buffer.alloc(64), /row 1: The file holds no text.*zero bytes/],
    [
      'binary',
      Buffer.from(rows(400, (i) => String.fromCharCode(i % 29)).join(''), 'latin1'),
      /row 1: This is not a text file.*control characters/,
    ],
    [
      'a spreadsheet',
      Buffer.from('PK\u0003\u0004rest of it', 'latin1'),
      /row 1: This is not a text file.*save the sheet as CSV/,
    ],
    [
      'a header only',
      lines('Operator: none', 'Time (s),TC1 (°C)'),
      /row 1: No row of readings was found.*"Operator: none"/,
    ],
    ['prose', lines('The weld was made on Tuesday.', 'It held.'), /row 1: No row of readings/],
    ['one row', lines('Time (s),TC1 (°C)', '0,22'), /row 2: Too few rows can be used\. Found: 1 row\./],
    [
      'rows that are all short',
      lines(
        'Time (s),TC1 (°C),TC2 (°C)',
        '0,22,23',
        rows(5, (i) => `x${i},22,23`),
      ),
      /row 3, column "Time \(s\)": Too few rows.*1 usable and 5 unusable/,
    ],
    [
      'no temperature',
      lines(
        'Time (s),Current (A)',
        rows(5, (i) => `${i},120`),
      ),
      /No column holds a temperature.*option columns/,
    ],
    ['no clock', lines('TC1 (°C),TC2 (°C)', '22,23', '22,23'), /No column holds the time.*intervalS/],
    [
      'one stamp in all rows',
      lines(
        'Time,TC1 (°C)',
        rows(5, () => '12:00,22'),
      ),
      /row 2: Every row has the same time.*intervalS/,
    ],
    [
      'a fraction of something',
      lines(
        'Time,TC1 (°C)',
        rows(20, (i) => `${(i * 0.0000116).toFixed(7)},22`),
      ),
      /seconds or fractions of a day.*clock\.format/,
    ],
    [
      'more columns than channels',
      lines(
        rows(2000, (i) => String(i)).join(','),
        rows(5, () => rows(2000, (c) => String(c)).join(',')),
      ),
      /more fields than any logger/,
    ],
  ])('%s', (...[, bytes, message, options]) => {
    expect(
      caught(bytes as Uint8Array, { name, ...(options as ReadOptions) }).message.replace(/\n/g, ' '),
    ).toMatch(message as RegExp);
  });

  it('a path that leads nowhere', () => {
    expect(() => readLog(path.join(tmpdir(), 'no-such-log.csv'))).toThrow(
      /^no-such-log\.csv: The file cannot be opened.*ENOENT/,
    );
    expect(() => readLog(tmpdir())).toThrow(TemperbookError);
  });

  it('something that is no file', () => {
    expect(() => readLog(42 as unknown as string)).toThrow(/from a file path or from the bytes.*number/);
  });
});

describe('a file on disk', () => {
  it('is read by its path, with its name, size and SHA-256', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'temperbook-'));
    const file = path.join(folder, 'mast foot.csv');
    writeFileSync(file, 'Time (s),TC1 (°C)\n0,22\n1,22\n');
    const log = readLog(file);
    rmSync(folder, { recursive: true });
    // As sha256sum prints it for the same bytes.
    expect(log.source).toEqual({
      name: 'mast foot.csv',
      bytes: 29,
      sha256: '3428e019742c1294200732549f0950bfa2d5075caba5daf8800e09268c2f8bb1',
    });
  });
});

describe('options', () => {
  const file = lines(
    'Zeit;CH1;CH2;CH3',
    rows(9, (i) => `${i};22,5;${23 + i};70`),
  );

  it('take columns in, rename them and leave them out', () => {
    const log = readLog(file, { columns: { CH1: 'toe', '#3': 'heel', ch3: false } });
    expect(log.channels.map(({ name }) => name)).toEqual(['toe', 'heel']);
    expect(log.leftAside).toEqual([{ name: 'CH3', unit: '', why: 'you said so' }]);
    expect(log.notes.some((note) => note.includes('Channel "toe" is column "CH1"'))).toBe(true);
  });

  it('give units to all or to some', () => {
    expect(readLog(file, { unit: '°F' }).channels.map(({ sourceUnit }) => sourceUnit)).toEqual([
      '°F',
      '°F',
      '°F',
    ]);
    const some = readLog(file, { unit: { CH3: '°F', CH1: '°C' } });
    expect(some.channels.map(({ sourceUnit }) => sourceUnit)).toEqual(['°C', '°C', '°F']);
  });

  it('overrule delimiter, decimal mark and encoding', () => {
    const tricky = lines(
      'Time (s),TC1 (°C)',
      rows(9, (i) => `${i},"1,${500 + i}"`),
    );
    expect(readLog(tricky, { decimal: ',' }).channels[0]!.history.tempC[0]).toBe(1.5);
    expect(() => readLog(file, { delimiter: '\t' })).toThrow(/No row of readings/);
    expect(
      readLog(Buffer.from(Buffer.from(file).toString('latin1'), 'utf16le'), { encoding: 'utf-16le' }).channels
        .length,
    ).toBe(3);
  });

  it.each<readonly [unknown, RegExp]>([
    [{ unitt: '°C' }, /There is no reading option "unitt".*one of name, encoding/],
    [{ unit: 'C' }, /option "unit" is not usable.*°C, °F, K/],
    [{ intervalS: 0 }, /option "intervalS" is not usable.*above 0/],
    [{ delimiter: '|' }, /option "delimiter" is not usable/],
    [{ limits: { lowC: 'cold' } }, /option "limits" is not usable/],
    [{ clock: { format: 'hours' } }, /option "clock" is not usable/],
    [
      { columns: { CH9: 'toe' } },
      /Option "columns" names a column the file does not have.*"CH1".*"#1" to "#4"/,
    ],
    [{ columns: { CH1: 3 } }, /option "columns" is not usable/],
  ])('%j is refused', (options, message) => {
    expect(() => readLog(file, options as ReadOptions)).toThrow(message);
  });

  it('a format that does not fit the clock is refused', () => {
    const stamped = lines(
      'Time,TC1 (°C)',
      rows(9, (i) => `18:00:0${i},22`),
    );
    expect(() => readLog(stamped, { clock: { format: 's' } })).toThrow(/does not hold numbers.*"18:00:00"/);
  });
});
