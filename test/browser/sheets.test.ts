/// <reference lib="dom" />
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mapFigure } from '../../lib/figure';
import { planRecovery, recoveryTicket, ticketHtml } from '../../lib/heattreat';
import { serveWatch, type WatchState } from '../../lib/job';
import { practicesFor } from '../../lib/kinetics';
import { stopReading, strengthMap } from '../../lib/planning';
import {
  checkRecord,
  compareHtml,
  compareWelds,
  type DecisionRecord,
  readShelf,
  recordHtml,
  shelfHtml,
  stopCardHtml,
  wallChartHtml,
  weldOfVerdict,
} from '../../lib/record';
import { sampleVerdict } from '../figure/samples';
import { sampleRecord } from '../record/samples';
import { newFolder, put } from '../record/shelf/folder';
import { accessibilityFaults } from './accessibilityFaults';
import { DESK, openFile, PHONE, startChromium, TABLET } from './chromiumPage';
import { EVIL, withTexts } from './hostile';
import { layoutFaults } from './layoutFaults';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  browser = await startChromium();
  folder = mkdtempSync(join(tmpdir(), 'sheets-'));
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

function file(name: string, html: string): string {
  const at = join(folder, `${name}.html`);
  writeFileSync(at, html);
  return at;
}

const compared = (first: string, second: string) =>
  compareWelds([weldOfVerdict(first, sampleVerdict()), weldOfVerdict(second, sampleVerdict())]);

function shelfPage() {
  const records = newFolder();
  put(records, { part: 'HB-1', date: '2031-05-14' });
  put(records, { part: 'HB-2', date: '2031-06-14' });
  const shelf = readShelf(records);
  const since = new Map([[shelf.parts[0]!.newest.file, { changed: ['card A356.0'], today: 'now lost' }]]);
  return { title: 'Shelf of parts', shelf, parts: shelf.parts, since };
}

const PAGES: Readonly<Record<string, () => string>> = {
  record: () => recordHtml(sampleRecord()),
  shelf: () => shelfHtml(shelfPage()),
  compare: () => compareHtml(compared('HB-09, as planned', 'HB-10')),
  'wall chart': () =>
    wallChartHtml({
      title: 'What heat does to 356.0-T6',
      figure: mapFigure(
        strengthMap({ alloy: '356.0', temper: 'T6', tempC: [80, 600] }),
        practicesFor('356.0'),
      ),
      notes: ['Read it by the green line. Below it even the worst case keeps what is needed.'],
    }),
  'stop card': () =>
    stopCardHtml(
      stopReading(
        {
          cellMm: 5,
          part: [{ name: 'plate', shape: { rectMm: [0, 0, 80, 60] }, thicknessMm: 6, metal: 'A356.0' }],
          surface: { convectionWPerM2K: 15, emissivity: 0.3, ambientC: 20 },
          initialC: 20,
          passes: [
            {
              path: [
                [10, 55],
                [70, 55],
              ],
              travelMmPerS: 4,
              netPowerW: 700,
              sourceRadiusMm: 5,
            },
          ],
          probes: [{ name: 'TC1 block, 28 mm from the toe', xMm: 60, yMm: 32 }],
          until: { coolForS: 200 },
        },
        { workers: 0, attachment: 'peened hole', limitC: 227, probe: 'TC1 block, 28 mm from the toe' },
      ),
    ),
  ticket: () => {
    const plan = planRecovery({
      schedule: 'A356.0 T6 sand casting',
      places: [
        {
          name: 'TC1 block 12 mm',
          material: 'casting',
          alloy: 'A356.0',
          temper: 'T6',
          peakC: 380,
          thicknessMm: 8,
        },
        { name: 'the weld', material: 'weld metal', peakC: 640, thicknessMm: 5 },
      ],
      filler: '4043',
      solutionTreatments: 1,
      thinnestWallMm: 3,
      longestMm: 180,
      holdsPressure: false,
      fittings: { threads: true, coating: false, inserts: false, machined: true },
    });
    const way = plan.ways.find(({ kind }) => kind === 'full treatment')!;
    return ticketHtml(recoveryTicket(plan, way, { part: 'Hinge block, foot of the folding mast' }));
  },
};

describe.each(Object.keys(PAGES))('the page of a %s', (name) => {
  let path: string;
  beforeAll(() => {
    path = file(name, PAGES[name]!());
  });

  it.each([PHONE, TABLET, DESK])(
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
});

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
    const opened = await openFile(browser, file('hostile', html));
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
