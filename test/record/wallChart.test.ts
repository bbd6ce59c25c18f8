import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { mapFigure } from '../../lib/figure';
import { strengthMap } from '../../lib/planning';
import { wallChartHtml, writeWallChart } from '../../lib/record';

const figure = mapFigure(strengthMap({ alloy: '6061', temper: 'T6', rows: 10, columns: 10 }));
const chart = { title: 'What heat does to <6061>', figure, notes: ['Green & pale.'] };
const folder = mkdtempSync(path.join(tmpdir(), 'chart-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('a sheet for the wall', () => {
  const page = wallChartHtml(chart);

  it('holds the picture, its title and its notes, escaped, and no script', () => {
    expect(page).toContain('<h1>What heat does to &lt;6061&gt;</h1>');
    expect(page).toContain('<p>Green &amp; pale.</p>');
    // One for the sheet and one for a phone.
    expect(page.match(/<svg /g)).toHaveLength(2);
    expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
  });

  it('has all times in one row', () => {
    const row = (text: string) => new RegExp(`y="([\\d.]+)"[^>]*>${text}<`).exec(page)?.[1];
    expect(Number(row('1 d'))).toBeGreaterThan(0);
    for (const late of ['1 week', '10 min', '1 h']) expect(row(late)).toBe(row('1 d'));
  });

  it('writes the same page to a file, folders and all', () => {
    const file = writeWallChart(chart, path.join(folder, 'deep', 'sheet.html'));
    expect(readFileSync(file, 'utf8')).toBe(page);
  });
});
