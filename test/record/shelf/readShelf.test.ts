import { execFile } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it, vi } from 'vitest';
import {
  amendRecordFile,
  auditFolder,
  NOTE_FILE,
  readRecord,
  readShelf,
  selectParts,
} from '../../../lib/record';
import { edit, newFolder, put, readLater } from './folder';

describe('a shelf of parts', () => {
  it('holds every part once, the newest edition standing for it, newest work first', () => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1', date: '2031-05-14' });
    put(path.join(folder, 'june'), { part: 'HB-2', date: '2031-06-01' });
    put(folder, { part: 'HB-3' });
    amendRecordFile(json, { decision: { disposition: 'accept', reason: 'measured' } });
    const { parts, problems } = readShelf(folder);
    expect(parts.map(({ newest }) => [newest.part, newest.edition])).toEqual([
      ['HB-2', 1],
      ['HB-1', 2],
      ['HB-3', 1],
    ]);
    expect(parts[1]!.editions.map(({ edition }) => edition)).toEqual([1, 2]);
    expect(parts[1]!.newest.decision?.disposition).toBe('accept');
    expect(problems).toEqual([]);
  });

  it('names what is damaged, changed by hand or emptied, and lets none of it stand for a part', () => {
    const folder = newFolder();
    put(folder, { part: 'sound' });
    truncateSync(put(folder, { part: 'short' }).json, 4000);
    edit(put(folder, { part: 'edited' }).json, (text) => text.replace('"edited"', '"other"'));
    truncateSync(put(folder, { part: 'emptied' }).json, 0);
    writeFileSync(path.join(folder, 'plan.json'), '{}');
    const { parts, problems, otherFiles } = readShelf(folder);
    expect(parts.map(({ newest }) => newest.part)).toEqual(['sound']);
    const of = (name: string) =>
      problems.filter(({ file }) => file === `${name}-record.json`).map(({ problem }) => problem);
    expect(of('short')).toEqual([expect.stringContaining('Cut short or damaged')]);
    expect(of('edited')).toEqual(['Changed after it was written: job.']);
    expect(of('emptied')).toEqual([expect.stringContaining('Cut short or damaged')]);
    expect(otherFiles).toBe(1);
  });

  it('says of a record that was changed by hand just that, whatever it says now', () => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1' });
    edit(json, (text) => text.replace(/"verdict": "uncertain"/g, '"verdict": "kept"'));
    expect(readShelf(folder).problems.map(({ problem }) => problem)).toEqual([
      'Changed after it was written: verdict.',
    ]);
    expect(() => readRecord(json)).toThrow(/changed by hand: verdict/);
    edit(json, (text) => text.replace('"channels": [', '"canals": ['));
    expect(() => readRecord(json)).toThrow(/changed by hand: .*log/);
  });

  it('finds in each file what an audit finds', () => {
    const folder = newFolder();
    truncateSync(put(folder, { part: 'short' }).json, 4000);
    const { json } = put(folder, { part: 'chain' });
    amendRecordFile(json, { job: { operator: 'bench 2' } });
    rmSync(json);
    const audited = auditFolder(folder)
      .findings.filter(({ file }) => file.endsWith('.json'))
      .map(({ file, problem }) => ({ file: path.relative(folder, file), problem }));
    expect(readShelf(folder).problems).toEqual(audited);
    expect(audited).toHaveLength(2);
  });

  it('never lets an older edition stand in for a newer one that is broken', () => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1' });
    truncateSync(amendRecordFile(json, { job: { operator: 'bench 2' } }).json, 3000);
    expect(readShelf(folder).parts).toEqual([]);
  });

  it('flags two parts with one number, however it is written', () => {
    const folder = newFolder();
    put(folder, { partNumber: 'FM-20', serial: '07' }, 'first');
    put(folder, { partNumber: 'fm-20 ', serial: '07' }, 'second');
    put(folder, { partNumber: 'FM-20', serial: '08' }, 'third');
    const { parts, problems } = readShelf(folder);
    expect(parts).toHaveLength(3);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.problem).toContain('has another record: first.json');
  });

  it('is no shelf where there is no folder', () => {
    expect(() => readShelf(path.join(newFolder(), 'none'))).toThrow('The folder cannot be read');
    const { json } = put(newFolder(), { part: 'HB-1' });
    expect(() => readShelf(json)).toThrow(`Give the folder it is in: ${path.dirname(json)}`);
  });
});

describe('the note of what was read', () => {
  /** Takes the note away that writing the records left. */
  const forget = (folder: string): void => rmSync(path.join(folder, NOTE_FILE));

  it('is written with each record, so that the first look reads none, and says what reading them says', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    const { json } = put(path.join(folder, 'june'), { part: 'HB-2' });
    amendRecordFile(json, { decision: { disposition: 'accept', reason: 'measured' } });
    const first = readShelf(folder);
    expect(first.readAnew).toBe(0);
    forget(folder);
    forget(path.join(folder, 'june'));
    expect(readShelf(folder)).toEqual({ ...first, readAnew: 3 });
  });

  it('saves reading what did not change', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    put(folder, { part: 'HB-2' });
    forget(folder);
    const first = readLater(folder);
    const second = readLater(folder);
    expect([first.readAnew, second.readAnew]).toEqual([2, 0]);
    expect({ ...second, readAnew: 2 }).toEqual(first);
  });

  it('goes with a folder that is copied or given another name', () => {
    const folder = newFolder();
    put(path.join(folder, 'june'), { part: 'HB-1' });
    const copy = newFolder();
    cpSync(path.join(folder, 'june'), path.join(copy, 'summer'), { recursive: true });
    const { readAnew, parts } = readLater(copy);
    expect([readAnew, parts[0]!.newest.file]).toEqual([0, path.join('summer', 'hb-1-record.json')]);
    edit(path.join(copy, parts[0]!.newest.file), (text) => text.replace('"HB-1"', '"HB-2"'));
    expect(readLater(copy).problems[0]!.problem).toBe('Changed after it was written: job.');
  });

  it('trusts no file that changed a moment before', () => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1' });
    forget(folder);
    const { ctimeMs } = statSync(json);
    const now = vi.spyOn(Date, 'now').mockReturnValue(ctimeMs + 5);
    readShelf(folder);
    now.mockRestore();
    expect(readShelf(folder).readAnew).toBe(1);
  });

  it.each(['written', 'read'])('of a record %s is not fooled by a change that keeps size and date', (how) => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1' });
    if (how === 'read') forget(folder);
    readLater(folder);
    const { atime, mtime } = statSync(json);
    edit(json, (text) => text.replace('"HB-1"', '"HB-2"'));
    utimesSync(json, atime, mtime);
    const { parts, problems } = readLater(folder);
    expect(parts).toEqual([]);
    expect(problems.map(({ problem }) => problem)).toEqual(['Changed after it was written: job.']);
  });

  it('counts for nothing where it was changed by hand or cut short, line by line', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    put(folder, { part: 'HB-2' });
    const note = path.join(folder, NOTE_FILE);
    edit(note, (text) => text.replace('"HB-1"', '"HB-9"'));
    const changed = readLater(folder);
    expect([changed.readAnew, changed.parts.map(({ newest }) => newest.part)]).toEqual([1, ['HB-1', 'HB-2']]);
    truncateSync(note, statSync(note).size - 9);
    // Whoever writes the next record does not lose its line to the broken one.
    put(folder, { part: 'HB-3' });
    expect(readLater(folder).readAnew).toBe(1);
  });

  it('keeps the lines of writers that write at once', async () => {
    const folder = newFolder();
    const { json } = put(newFolder(), { part: 'HB-1' });
    const text = readFileSync(json, 'utf8');
    const files = Array.from({ length: 40 }, (_, k) => path.join(folder, `hb-${k}-record.json`));
    for (const file of files) writeFileSync(file, text);
    const writer = `
      const { noteWritten } = require(process.argv[1]);
      const text = require('node:fs').readFileSync(process.argv[2], 'utf8');
      for (const file of process.argv.slice(2)) noteWritten(file, JSON.parse(text), text);`;
    const module = path.resolve('dist/record/shelf/shelfNote.js');
    const half = files.length / 2;
    await Promise.all(
      [files.slice(0, half), files.slice(half)].map((mine) =>
        promisify(execFile)(process.execPath, ['-e', writer, module, ...mine]),
      ),
    );
    expect(readShelf(folder).readAnew).toBe(0);
  });

  it('takes away what a stopped look left of it, when the next record is written', () => {
    const folder = newFolder();
    const left = path.join(folder, `.unfinished-${2 ** 30}-${NOTE_FILE}`);
    writeFileSync(left, 'half a note');
    expect(auditFolder(folder).findings.map(({ file }) => file)).toEqual([left]);
    put(folder, { part: 'HB-1' });
    expect(auditFolder(folder).findings).toEqual([]);
  });

  it('may be missing: a shelf that cannot be noted on says so and is whole', () => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1' });
    forget(folder);
    mkdirSync(path.join(folder, NOTE_FILE, 'in the way'), { recursive: true });
    const { parts, notNoted } = readLater(folder);
    expect(parts).toHaveLength(1);
    expect(notNoted).toContain('cannot be written');
    expect(amendRecordFile(json, { job: { operator: 'bench 2' } }).edition).toBe(2);
  });
});

describe('choosing parts', () => {
  const folder = newFolder();
  put(folder, { part: 'HB-1', job: 'M-1', date: '2031-05-14' });
  put(folder, { part: 'HB-2', job: 'M-2', date: '2031-06-14' });
  put(folder, { part: 'HB-3', job: 'M-3' });
  const { parts } = readShelf(folder);
  const chosen = (filter: Parameters<typeof selectParts>[1]) =>
    selectParts(parts, filter).parts.map(({ newest }) => newest.part);

  it('goes by alloy, word, number and day', () => {
    expect(chosen({})).toHaveLength(3);
    expect(chosen({ alloy: 'a356' })).toHaveLength(3);
    expect(chosen({ alloy: '6061' })).toEqual([]);
    expect(chosen({ word: 'uncertain' })).toHaveLength(3);
    expect(chosen({ word: 'kept' })).toEqual([]);
    expect(chosen({ part: 'm-2' })).toEqual(['HB-2']);
    expect(chosen({ from: '2031-06-14' })).toEqual(['HB-2']);
    expect(chosen({ to: '2031-06-13' })).toEqual(['HB-1']);
    expect(chosen({ undecided: true })).toHaveLength(3);
  });

  it('counts those it left out for want of a date', () => {
    expect(selectParts(parts, { from: '2031-01-01' }).undated).toBe(1);
    expect(selectParts(parts, {}).undated).toBe(0);
  });

  it('refuses a word that is none and a day that is none', () => {
    expect(() => chosen({ word: 'good' as 'kept' })).toThrow('one of lost, uncertain, kept');
    expect(() => chosen({ from: '14.5.2031' })).toThrow('2031-05-14');
    expect(() => chosen({ to: '2031-02-30' })).toThrow('This is no day');
  });
});
