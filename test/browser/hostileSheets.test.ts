/// <reference lib="dom" />
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serveWatch, type WatchState } from '../../lib/job';
import { checkRecord, compareHtml, type DecisionRecord, recordHtml, shelfHtml } from '../../lib/record';
import { sampleRecord } from '../record/samples';
import { DESK, openFile, PHONE, startChromium } from './chromiumPage';
import { EVIL, withTexts } from './hostile';
import { layoutFaults } from './layoutFaults';
import { compared, shelfPage } from './sheets';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  browser = await startChromium();
  folder = mkdtempSync(join(tmpdir(), 'sheets-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A record in which every text is hostile that its schema leaves free, and every text of its figures. */
function hostileRecord(): DecisionRecord {
  const { figures, ...sound } = JSON.parse(JSON.stringify(sampleRecord())) as DecisionRecord;
  const keys = new Set<string>();
  withTexts(sound, (text, at) => {
    keys.add(at);
    return text;
  });
  const words = [...keys].reduce((record, key) => {
    const next = withTexts(record, (text, at) => (at === key ? `${EVIL} ${text}` : text));
    try {
      checkRecord({ ...next, figures: [] });
      return next;
    } catch {
      return record;
    }
  }, sound);
  // What plotly reads as a word of its own is no text: only what it writes on the paper is.
  const isWritten = /\.(text|name|ticktext\.\*|hovertemplate|caption)$/;
  return {
    ...words,
    figures: withTexts(figures, (text, at) => (isWritten.test(at) ? `${EVIL} ${text}` : text)),
  };
}

describe('hostile text', () => {
  async function runsNothing(html: string): Promise<void> {
    const at = join(folder, 'hostile.html');
    writeFileSync(at, html);
    const opened = await openFile(browser, at);
    const { page } = opened;
    expect(await page.evaluate(() => (document.body.textContent ?? '').includes('onerror=alert(1)'))).toBe(
      true,
    );
    expect(await page.locator('img, svg[onload], script:not([type]):not([id]) ~ img').count()).toBe(0);
    expect(opened.requests).toEqual([]);
    expect(opened.complaints).toEqual([]);
    await opened.close();
  }

  it('runs nowhere in a record, whichever of its texts holds it', async () => {
    const record = hostileRecord();
    let hostile = 0;
    withTexts(record, (text) => {
      if (text.startsWith(EVIL)) hostile++;
      return text;
    });
    expect(hostile).toBeGreaterThan(100);
    await runsNothing(recordHtml(record));
  });

  it('runs nowhere on a shelf', async () => {
    const { shelf, parts, since } = shelfPage();
    const evil = (part: (typeof parts)[number]) =>
      withTexts(part, (text, at) => (/\.(verdict|disposition|file)$/.test(at) ? text : `${EVIL} ${text}`));
    await runsNothing(
      shelfHtml({
        title: EVIL,
        shelf: { ...shelf, folder: EVIL, problems: [{ file: EVIL, problem: EVIL }] },
        parts: parts.map(evil),
        chosen: EVIL,
        since: new Map([...since.keys()].map((key) => [key, { changed: [EVIL], today: EVIL }])),
      }),
    );
  });

  it('runs nowhere beside other welds', async () => {
    const { places, leftOut } = compared(EVIL, 'other');
    await runsNothing(
      compareHtml({ places: places.map((place) => ({ ...place, name: EVIL })), leftOut: [...leftOut, EVIL] }),
    );
  });

  it.each([PHONE, DESK])(
    'runs nowhere on the page of a watch, which fits $viewport.width px',
    async (screen) => {
      const server = await serveWatch(0);
      const context = await browser.newContext(screen);
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => complaints.push(message.text()));
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('dialog', (dialog) => complaints.push(dialog.message()));
      const state = (text: string): WatchState => ({
        log: text,
        level: 'near',
        headline: text,
        probes: [
          {
            name: text,
            tempC: 214.4,
            limitC: 227,
            usedShare: 0.4,
            usedAtMost: 0.8,
            leftS: 12,
            level: 'near',
            say: text,
          },
        ],
        silentS: 0,
        notes: [text],
      });
      await page.goto(server.url);
      server.show(state(EVIL));
      await page.waitForFunction(() => document.querySelector('h1')!.textContent!.includes('onerror'));
      expect(await page.locator('img, svg').count()).toBe(0);
      server.show(state('TC1 block 12 mm, near its limit'));
      await page.waitForFunction(() => document.querySelector('h1')!.textContent!.includes('near its'));
      expect(await layoutFaults(page)).toEqual([]);
      await server.end('The watch has ended');
      expect(complaints).toEqual([]);
      await context.close();
    },
  );
});
