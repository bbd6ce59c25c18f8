/// <reference lib="dom" />
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runNotebook } from '../../dist/notebook';
import { DESK, openFile, PHONE, startChromium } from './chromiumPage';

let browser: Browser;
let folder: string;
let file: string;

beforeAll(async () => {
  browser = await startChromium();
  folder = mkdtempSync(path.join(tmpdir(), 'page-'));
  file = (await runNotebook('test/notebook/fixtures/figures.ipynb', { outFolder: folder })).htmlPath;
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("a notebook's page, opened offline", () => {
  it.each([
    ['a desk screen', DESK],
    ['a phone', PHONE],
  ])(
    'draws every figure on %s, complains of nothing, asks nobody, and does not scroll sideways',
    async (_, screen) => {
      const { page, complaints, requests, close } = await openFile(browser, file, screen);
      expect(await page.locator('figure.plot.drawn .main-svg:visible').count()).toBeGreaterThanOrEqual(2);
      expect(await page.locator('figure.plot.drawn').count()).toBe(2);
      expect(await page.locator('td').first().textContent()).toBe('TC1 <hinge>');
      expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBeLessThanOrEqual(0);
      expect(complaints).toEqual([]);
      expect(requests).toEqual([]);
      await close();
    },
  );

  it('shows the figures with scripts off', async () => {
    const { page, close } = await openFile(browser, file, { ...DESK, javaScriptEnabled: false });
    expect(await page.locator('figure.plot .still.wide svg').count()).toBe(2);
    for (const picture of await page.locator('figure.plot .still.wide svg').all())
      expect((await picture.boundingBox())?.height).toBeGreaterThan(200);
    await close();
  });

  it.each([PHONE, DESK])(
    'has the answer right under the question, before all else, at $viewport.width px',
    async (screen) => {
      const { page, close } = await openFile(browser, file, screen);
      const order = await page.$$eval('main > *', (all) => all.map((e) => e.className || e.tagName));
      expect(order.slice(0, 2)).toEqual(['H1', 'answer']);
      expect(await page.$eval('.answer', (e) => e.querySelectorAll('figure.plot, table').length)).toBe(2);
      expect(await page.locator('.answer table').count()).toBe(await page.locator('table').count());
      await close();
    },
  );

  it('names every figure above it', async () => {
    const { page, close } = await openFile(browser, file);
    expect(await page.$$eval('figure.plot > figcaption', (all) => all.map((e) => e.textContent))).toEqual([
      'Temperature',
      'Temperature',
    ]);
    await close();
  });

  it('folds the code, and unfolds it by the keyboard with scripts off', async () => {
    const { page, close } = await openFile(browser, file, { ...DESK, javaScriptEnabled: false });
    const code = page.locator('details', { hasText: 'thermalHistory' }).locator('pre');
    expect(await code.isVisible()).toBe(false);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await code.isVisible()).toBe(true);
    await close();
  });

  it('shows a table on a phone as cards, each value under its heading', async () => {
    const { page, close } = await openFile(browser, file, PHONE);
    expect(await page.locator('thead').first().isVisible()).toBe(false);
    const labels = await page.$$eval('td', (cells) =>
      cells.map((cell) => getComputedStyle(cell, '::before').content),
    );
    expect(labels).toEqual(['"Probe"', '"Peak °C"']);
    await close();
  });
});
