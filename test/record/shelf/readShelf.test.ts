import { mkdirSync, rmSync, statSync, truncateSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { amendRecordFile, auditFolder, INDEX_FILE, readShelf, selectParts } from '../../../lib/record';
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
  });
});

describe('the note of what was read', () => {
  it('saves reading what did not change', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    put(folder, { part: 'HB-2' });
    const first = readLater(folder);
    const second = readLater(folder);
    expect([first.readAnew, second.readAnew]).toEqual([2, 0]);
    expect({ ...second, readAnew: 2 }).toEqual(first);
    put(folder, { part: 'HB-3' });
    expect(readLater(folder).readAnew).toBe(1);
  });

  it('trusts no file that changed a moment before', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    readShelf(folder);
    expect(readShelf(folder).readAnew).toBe(1);
  });

  it('is not fooled by a change that keeps size and date of the file', () => {
    const folder = newFolder();
    const { json } = put(folder, { part: 'HB-1' });
    readLater(folder);
    const { atime, mtime } = statSync(json);
    edit(json, (text) => text.replace('"HB-1"', '"HB-2"'));
    utimesSync(json, atime, mtime);
    const { parts, problems } = readLater(folder);
    expect(parts).toEqual([]);
    expect(problems.map(({ problem }) => problem)).toEqual(['Changed after it was written: job.']);
  });

  it('counts for nothing when it was changed by hand or cut short', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    readLater(folder);
    const note = path.join(folder, INDEX_FILE);
    edit(note, (text) => text.replace('"HB-1"', '"HB-2"'));
    const changed = readLater(folder);
    expect([changed.readAnew, changed.parts[0]!.newest.part]).toEqual([1, 'HB-1']);
    truncateSync(note, 200);
    expect(readLater(folder).readAnew).toBe(1);
  });

  it('may be missing: a shelf that cannot be noted on says so and is whole', () => {
    const folder = newFolder();
    put(folder, { part: 'HB-1' });
    mkdirSync(path.join(folder, INDEX_FILE, 'in the way'), { recursive: true });
    const { parts, notNoted } = readLater(folder);
    expect(parts).toHaveLength(1);
    expect(notNoted).toContain('cannot be written');
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
