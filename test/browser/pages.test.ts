/// <reference lib="dom" />
import { readdirSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { inFull } from '../setup/extent';
import { ranNotebook } from '../setup/ranNotebook';
import { accessibilityFaults } from './accessibilityFaults';
import { DESK, openFile, PAPERS, PHONE, startChromium, TABLET } from './chromiumPage';
import { layoutFaults } from './layoutFaults';

const SCREENS = [PHONE, TABLET, DESK];

// In short, the notebook that writes a record too and the one with the longest texts in a figure, and scripts off and what others
// than eyes read on the phone alone; all take minutes.
const chosen = inFull ? /^/ : /^(01|09)-/;
const notebooks = readdirSync('notebooks').filter((file) => chosen.test(file) && file.endsWith('.ipynb'));

let browser: Browser;
beforeAll(async () => {
  browser = await startChromium();
});

describe.each(notebooks)('the pages of notebooks/%s', (name) => {
  let pages: string[];
  beforeAll(async () => {
    const outFolder = await ranNotebook(name);
    pages = readdirSync(outFolder)
      .filter((file) => file.endsWith('.html'))
      .map((file) => path.join(outFolder, file));
  }, 300_000);

  it.each(SCREENS)(
    'at $viewport.width px have no text cut, off the screen or on another; contrast, names and headings by WCAG 2.2 AA on phone and desk',
    async (screen) => {
      for (const file of pages)
        for (const javaScriptEnabled of inFull || screen === PHONE ? [true, false] : [true]) {
          const { page, close } = await openFile(browser, file, { ...screen, javaScriptEnabled });
          const where = `${path.basename(file)}, scripts ${javaScriptEnabled ? 'on' : 'off'}`;
          expect(await layoutFaults(page), where).toEqual([]);
          if (javaScriptEnabled && (screen === PHONE || (inFull && screen === DESK)))
            expect(await accessibilityFaults(page), where).toEqual([]);
          await close();
        }
    },
  );

  it('on A4 and on Letter have no text cut, off the paper or on another, and a record its whole story on the first sheet', async () => {
    for (const file of pages) {
      const { page, close } = await openFile(browser, file);
      await page.emulateMedia({ media: 'print' });
      for (const { name: paper, width, height } of PAPERS) {
        const where = `${path.basename(file)} on ${paper}`;
        await page.setViewportSize({ width, height });
        expect(await layoutFaults(page), where).toEqual([]);
        for (const story of await page.locator('.story').all())
          expect((await story.boundingBox())!.height, where).toBeLessThan(height);
      }
      await close();
    }
  });
});
