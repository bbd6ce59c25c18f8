import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { readShelf, shelfHtml, writeShelf } from '../../../lib/record';
import { unwrapped } from '../../setup/unwrapped';
import { newFolder, put } from './folder';

const folder = newFolder();
put(folder, { part: '<b>HB-1</b>', date: '2031-05-14' });
put(folder, { part: 'HB-2', date: '2031-06-14' });
const shelf = readShelf(folder);
const page = { title: 'Shelf', shelf, parts: shelf.parts, since: new Map() };

describe('the page of a shelf', () => {
  it('loads nothing, runs nothing, and shows a text of a record as text', () => {
    const html = unwrapped(shelfHtml(page));
    expect(html).not.toMatch(/<script|\bsrc=|<link|url\(http/i);
    expect(html).toContain('&lt;b&gt;HB-1&lt;/b&gt;');
    expect(html).not.toContain('<b>HB-1');
  });

  it('draws peak, time above the limit and strength kept', () => {
    const html = shelfHtml(page);
    for (const title of ['Hottest reading', 'Time above the limit', 'Strength kept'])
      expect(html).toContain(`aria-label="${title}`);
  });

  it('says what became of decisions whose ground has changed', () => {
    const decided = shelf.parts.map((part) => ({
      ...part,
      newest: { ...part.newest, decision: { disposition: 'accept' as const, reason: 'measured' } },
    }));
    const since = new Map([[decided[0]!.newest.file, { changed: ['card A356.0'], today: 'now lost' }]]);
    const html = shelfHtml({ ...page, parts: decided, since });
    expect(html).toContain('Decisions whose ground has changed');
    expect(html).toContain('now lost');
    expect(shelfHtml(page)).not.toContain('Decisions whose ground has changed');
  });

  it('is a page without parts too', () => {
    expect(shelfHtml({ ...page, parts: [] })).toContain('0 parts');
  });

  it('goes over an older page, over nothing else, and whole or not at all', () => {
    const out = path.join(newFolder(), 'shelf.html');
    writeShelf(page, out);
    writeShelf({ ...page, title: 'Newer' }, out);
    expect(readFileSync(out, 'utf8')).toContain('<title>Newer</title>');
    const other = path.join(newFolder(), 'notes.html');
    writeFileSync(other, 'mine');
    expect(() => writeShelf(page, other)).toThrow('Another file stands');
    expect(readFileSync(other, 'utf8')).toBe('mine');
    const nowhere = path.join(newFolder(), 'none', 'shelf.html');
    expect(() => writeShelf(page, nowhere)).toThrow('cannot be written');
    expect(existsSync(nowhere)).toBe(false);
    expect(readdirSync(path.dirname(other))).toEqual(['notes.html']);
  });
});
