import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { TemperbookError } from '../../lib/quantity';
import { readRecord, recordHtml, recordName, writeRecord } from '../../lib/record';
import { placeFiles } from '../../lib/record/placeFiles';
import { sampleRecord } from './samples';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('writeRecord', () => {
  const record = sampleRecord();

  it('writes one page and one JSON file, and the page can be made again from the JSON', () => {
    const written = writeRecord(record, join(folder, 'new', 'place'));
    expect(readdirSync(join(folder, 'new', 'place')).sort()).toEqual([
      'm-0412-record.html',
      'm-0412-record.json',
    ]);
    const again = readRecord(written.json);
    expect(again).toEqual(record);
    expect(recordHtml(again)).toBe(readFileSync(written.html, 'utf8'));
  });

  it('writes the same bytes again, in place of the earlier record', () => {
    const written = writeRecord(record, folder);
    const bytes = () => Buffer.concat([readFileSync(written.html), readFileSync(written.json)]);
    const before = bytes();
    writeRecord(sampleRecord(), folder);
    expect(bytes().equals(before)).toBe(true);
  });

  it('keeps lists of numbers on one line, so that the file can be read by people', () => {
    const { json } = writeRecord(record, folder);
    expect(readFileSync(json, 'utf8').split('\n').length).toBeLessThan(4000);
  });

  it.each(['html', 'json'])('leaves another %s file of that name alone', (ending) => {
    const path = join(folder, `m-0412-record.${ending}`);
    writeFileSync(path, 'someone’s own notes');
    expect(() => writeRecord(record, folder)).toThrow(TemperbookError);
    expect(readFileSync(path, 'utf8')).toBe('someone’s own notes');
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it.each(['../up', '', '.hidden', 'a/b', 'a\u0000b'])('refuses the name %j', (name) => {
    expect(() => writeRecord(record, folder, name)).toThrow(TemperbookError);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('refuses a record that is not whole, and writes nothing', () => {
    const broken = { ...record, verdict: { ...record.verdict, channels: [] } };
    expect(() => writeRecord(broken, folder)).toThrow(TemperbookError);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('placeFiles', () => {
  it('puts back what stood there when a later file cannot be placed', () => {
    writeFileSync(join(folder, 'a'), 'old');
    mkdirSync(join(folder, 'b'));
    const files = ['a', 'c', 'b'].map((name) => ({ path: join(folder, name), text: 'new' }));
    expect(() => placeFiles(files)).toThrow(/nothing was/);
    expect(readFileSync(join(folder, 'a'), 'utf8')).toBe('old');
    expect(readdirSync(folder).sort()).toEqual(['a', 'b']);
  });

  it('says where it could not write', () => {
    writeFileSync(join(folder, 'file'), '');
    expect(() => placeFiles([{ path: join(folder, 'file', 'x.html'), text: '' }])).toThrow(/x\.html/);
  });
});

describe('recordName', () => {
  it.each([
    [{ job: { job: 'M 04/12 é' } }, 'm-04-12-e-record'],
    [{ job: { part: 'Hinge block' } }, 'hinge-block-record'],
    [{ job: {} }, 'mast-foot-record'],
    [{ job: { job: '///' } }, 'temper-record'],
  ])('%j gives %s', (over, name) => {
    expect(recordName(sampleRecord(over))).toBe(name);
  });
});

describe('readRecord', () => {
  it('says which file is no record', () => {
    const path = join(folder, 'x.json');
    expect(() => readRecord(path)).toThrow(TemperbookError);
    writeFileSync(path, '{');
    expect(() => readRecord(path)).toThrow(/x\.json/);
    writeFileSync(path, '{}');
    expect(() => readRecord(path)).toThrow(/x\.json.*not a decision record/);
  });
});
