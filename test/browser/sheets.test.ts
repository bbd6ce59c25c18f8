import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inFull } from '../setup/extent';
import { accessibilityFaults } from './accessibilityFaults';
import { DESK, openFile, PAPERS, PHONE, startChromium, TABLET } from './chromiumPage';
import { layoutFaults } from './layoutFaults';
import { SHEETS } from './sheets';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  browser = await startChromium();
  folder = mkdtempSync(join(tmpdir(), 'sheets-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** In short the narrowest, where a fault shows first. */
const SCREENS = inFull ? [PHONE, TABLET, DESK] : [PHONE];
const NAMES = Object.keys(SHEETS).filter((name) => inFull || name !== 'stop card');

describe.each(NAMES)('the page of a %s', (name) => {
  let path: string;
  beforeAll(() => {
    path = join(folder, `${name}.html`);
    writeFileSync(path, SHEETS[name]!());
  });

  it.each(SCREENS)(
    'has no text cut, off the screen or on another, and is fit for all readers, at $viewport.width px',
    async (screen) => {
      const opened = await openFile(browser, path, screen);
      expect(await layoutFaults(opened.page)).toEqual([]);
      expect(await accessibilityFaults(opened.page)).toEqual([]);
      expect(opened.complaints).toEqual([]);
      expect(opened.requests).toEqual([]);
      await opened.close();
    },
  );

  it('has no text cut, off the paper or on another on A4', async () => {
    const [{ width, height }] = PAPERS;
    const isTurned = readFileSync(path, 'utf8').includes('size: landscape');
    const viewport = isTurned ? { width: height, height: width } : { width, height };
    const { page, close } = await openFile(browser, path, { viewport });
    await page.emulateMedia({ media: 'print' });
    expect(await layoutFaults(page)).toEqual([]);
    await close();
  });
});
