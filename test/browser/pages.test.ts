/// <reference lib="dom" />
import { readdirSync } from 'node:fs';
import path from 'node:path';
import axe from 'axe-core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inFull } from '../setup/extent';
import { ranNotebook } from '../setup/ranNotebook';
import { DESK, openFile, PHONE, startChromium } from './chromiumPage';
import { layoutFaults } from './layoutFaults';

const TABLET = { viewport: { width: 768, height: 1024 } } as const;
const SCREENS = [PHONE, TABLET, DESK];

// In short, the notebook that writes a record too; more of them take minutes.
const chosen = inFull ? /^(01|10|11)-/ : /^01-/;
const notebooks = readdirSync('notebooks').filter((file) => chosen.test(file) && file.endsWith('.ipynb'));

let browser: Browser;
beforeAll(async () => {
  browser = await startChromium();
});
afterAll(() => browser?.close());

describe.each(notebooks)('the pages of notebooks/%s', (name) => {
  let pages: string[];
  beforeAll(async () => {
    const outFolder = await ranNotebook(name);
    pages = readdirSync(outFolder)
      .filter((file) => file.endsWith('.html'))
      .map((file) => path.join(outFolder, file));
  }, 300_000);

  it.each(SCREENS)(
    'have no text cut, off the screen or on another, at $viewport.width px',
    async (screen) => {
      for (const file of pages)
        for (const javaScriptEnabled of [true, false]) {
          const { page, close } = await openFile(browser, file, { ...screen, javaScriptEnabled });
          const faults = await layoutFaults(page);
          expect(faults, `${path.basename(file)}, scripts ${javaScriptEnabled ? 'on' : 'off'}`).toEqual([]);
          await close();
        }
    },
  );

  // Web Content Accessibility Guidelines 2.2, levels A and AA, W3C 2023, as axe-core checks them.
  it.each([PHONE, DESK])(
    'have contrast, names and headings by WCAG 2.2 AA at $viewport.width px',
    async (screen) => {
      for (const file of pages) {
        const { page, close } = await openFile(browser, file, screen);
        await page.evaluate(axe.source);
        const { violations } = await page.evaluate(() =>
          (window as unknown as { axe: typeof axe }).axe.run(document, {
            runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
          }),
        );
        const found = violations.map(
          ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`,
        );
        expect(found, path.basename(file)).toEqual([]);
        await close();
      }
    },
  );
});
