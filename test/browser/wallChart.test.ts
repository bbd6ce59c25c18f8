import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mapFigure } from '../../lib/figure';
import { practicesFor } from '../../lib/kinetics';
import { strengthMap } from '../../lib/planning';
import { writeWallChart } from '../../lib/record';
import { startChromium } from './chromiumPage';

let browser: Browser;
const folder = mkdtempSync(path.join(tmpdir(), 'sheet-'));
beforeAll(async () => {
  browser = await startChromium();
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Pages of a PDF: its page objects stand there in plain text. */
const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

describe('a sheet for the wall', () => {
  const figure = mapFigure(
    strengthMap({ alloy: '356.0', temper: 'T6', tempC: [80, 600], rows: 27, columns: 21 }),
    practicesFor('356.0'),
  );
  const note = 'A sentence about what the picture shows and what it does not know. '.repeat(3);

  it.each(['A4', 'Letter'] as const)(
    'prints on one page of %s, with few notes and with many',
    async (format) => {
      for (const notes of [[note], [note, note, note, note]]) {
        const file = writeWallChart(
          { title: 'What heat does', figure, notes },
          path.join(folder, 'sheet.html'),
        );
        const page = await browser.newPage();
        await page.goto(`file://${file}`);
        expect(pagesOf(await page.pdf({ format, landscape: true, printBackground: true }))).toBe(1);
        await page.close();
      }
    },
  );
});
