/// <reference lib="dom" />
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { heatmapFigure, mapFigure, residualFigure, traceFigure, verdictFigure } from '../../lib/figure';
import type { Units } from '../../lib/quantity';
import { type RecordParts, writeRecord } from '../../lib/record';
import { sampleLog, sampleVerdict, twelveChannels } from '../figure/samples';
import { sampleRecord } from '../record/samples';
import { DESK, openFile, PAPERS, PHONE, startChromium } from './chromiumPage';
import { EVIL } from './hostile';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  browser = await startChromium();
  folder = mkdtempSync(join(tmpdir(), 'pages-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const write = (name: string, over: Partial<RecordParts> = {}, units: Units = 'metric'): string =>
  writeRecord(sampleRecord(over), folder, name, units).html;

/** A record with every kind of figure there is. */
function everyFigure(): string {
  const log = sampleLog();
  return write('every-figure', {
    figures: [
      verdictFigure(log, sampleVerdict(log)),
      traceFigure(twelveChannels(), { title: 'Twelve channels' }),
      mapFigure({
        timeS: [1, 100, 10_000],
        tempC: [150, 300, 450],
        keptFraction: [
          [1, 1, 0.9],
          [1, 0.8, 0.5],
          [0.7, 0.4, 0.3],
        ],
      }),
      heatmapFigure(
        {
          alongMm: [0, 50, 100],
          acrossMm: [0, 20],
          peakC: [
            [100, 300, 120],
            [90, 200, null],
          ],
        },
        { limits: [{ name: 'shop limit', limitC: 226.7 }] },
      ),
      residualFigure([{ label: 'row', measured: 100, models: [{ name: 'curve', nominal: 106 }] }], {
        unit: 'MPa',
      }),
    ],
  });
}

describe('a record opened offline', () => {
  it.each([
    ['desk', DESK],
    ['phone', PHONE],
  ])('draws every figure on a %s, asks for nothing and complains of nothing', async (_, device) => {
    const opened = await openFile(browser, everyFigure(), device);
    const figures = await opened.page.$$eval('figure.plot', (all) =>
      all.map((figure) => ({
        drawn: figure.querySelectorAll('.live .main-svg').length,
        marks: figure.querySelectorAll('.live :is(.trace, .contour, .hm)').length,
        still: Array.from(figure.querySelectorAll('.still')).filter((e) => e.getClientRects().length > 0)
          .length,
      })),
    );
    expect(figures).toHaveLength(5);
    for (const figure of figures) {
      expect(figure.drawn).toBeGreaterThan(0);
      expect(figure.marks).toBeGreaterThan(0);
      expect(figure.still).toBe(0);
    }
    expect(opened.complaints).toEqual([]);
    expect(opened.requests).toEqual([]);
    await opened.close();
  });

  it.each([
    ['desk', DESK],
    ['phone', PHONE],
  ])('shows the verdict, the reason and the trace on the first screen of a %s', async (_, device) => {
    const { page, close } = await openFile(browser, write('first'), device);
    const top = (selector: string) => page.$eval(selector, (e) => e.getBoundingClientRect().top);
    const [verdict, lead, numbers, trace] = [
      await top('h1'),
      await top('.lead'),
      await top('.numbers'),
      await top('figure.plot .live .main-svg'),
    ];
    expect(verdict).toBeLessThan(lead);
    expect(lead).toBeLessThan(numbers);
    expect(numbers).toBeLessThan(trace);
    expect(trace).toBeLessThan(device.viewport.height - 100);
    await close();
  });

  it('never scrolls sideways on a phone, not even with a long word', async () => {
    const long = 'W'.repeat(300);
    const verdict = sampleVerdict();
    const [first, ...rest] = verdict.channels;
    const path = write('long', {
      job: { part: long },
      verdict: {
        ...verdict,
        sentence: long,
        action: { ...verdict.action, headline: long, reason: long, now: [long, long] },
        channels: [
          {
            ...first!,
            sentence: long,
            settle: [long],
            doubts: [{ kind: 'metal', of: long, drop: 0.1, rise: 0 }],
          },
          ...rest,
        ],
      },
    });
    const { page, close } = await openFile(browser, path, PHONE);
    const [page_, screen] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(page_).toBe(screen);
    await close();
  });

  it('with scripts off shows the verdict and the still picture that fits the screen', async () => {
    for (const [device, width] of [
      [DESK, 'wide'],
      [PHONE, 'narrow'],
    ] as const) {
      const { page, close } = await openFile(browser, write('still'), {
        ...device,
        javaScriptEnabled: false,
      });
      expect(await page.textContent('h1')).toContain('Measure first');
      const shown = page.locator('figure.plot .still:visible');
      expect(await shown.count()).toBe(1);
      expect(await shown.getAttribute('class')).toBe(`still ${width}`);
      const box = (await shown.locator('svg').boundingBox())!;
      expect(box.width).toBeGreaterThan(320);
      expect(box.height).toBeGreaterThan(400);
      expect(box.x + box.width).toBeLessThanOrEqual(device.viewport.width);
      await close();
    }
  });

  it('prints the still picture, not the live one', async () => {
    const { page, close } = await openFile(browser, write('print'));
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('figure.plot .still.wide').isVisible()).toBe(true);
    expect(await page.locator('figure.plot .live').isVisible()).toBe(false);
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)!.length;
    expect(pages).toBeGreaterThanOrEqual(3);
    expect(pages).toBeLessThanOrEqual(8);
    await close();
  });

  it('tells the whole story on the first sheet, of A4 as of Letter', async () => {
    const { page, close } = await openFile(browser, write('sheet'));
    await page.emulateMedia({ media: 'print' });
    for (const { width, height } of PAPERS) {
      await page.setViewportSize({ width, height });
      expect(await page.$eval('.story', (e) => e.getBoundingClientRect().bottom)).toBeLessThan(height);
    }
    expect(await page.$eval('.annex', (e) => getComputedStyle(e).breakBefore)).toBe('page');
    await close();
  });

  it('keeps hostile text inert and legible', async () => {
    const log = sampleLog();
    const verdict = sampleVerdict(log);
    const named = { ...log, channels: log.channels.map((c, i) => ({ ...c, name: i === 0 ? EVIL : c.name })) };
    const path = write('hostile', {
      log: named,
      job: { part: EVIL, operator: EVIL },
      verdict: {
        ...verdict,
        sentence: EVIL,
        action: { ...verdict.action, reason: EVIL },
        channels: verdict.channels.map((c, i) => ({ ...c, name: i === 0 ? EVIL : c.name })),
      },
      decision: { disposition: 'reject', reason: EVIL },
    });
    const opened = await openFile(browser, path);
    expect(opened.complaints).toEqual([]);
    expect(opened.requests).toEqual([]);
    expect(await opened.page.$$eval('main img', (all) => all.length)).toBe(0);
    expect(await opened.page.$$eval('script', (all) => all.length)).toBe(4);
    expect(await opened.page.textContent('.lead')).toBe(EVIL);
    expect(await opened.page.title()).toContain(EVIL);
    await opened.close();
  });

  it('refuses by its policy to run a script that is not its own', async () => {
    const { page, complaints, close } = await openFile(browser, write('policy'));
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "taken over"';
      document.head.append(script);
      return document.title;
    });
    expect(ran).not.toBe('taken over');
    expect(complaints.join()).toContain('Content Security Policy');
    await close();
  });

  it('offers no button that would send the data away', async () => {
    const { page, close } = await openFile(browser, write('buttons'));
    await page.hover('figure.plot .live');
    const buttons = await page.$$eval('.modebar-btn', (all) => all.map((b) => b.getAttribute('data-title')));
    expect(buttons.length).toBeGreaterThan(2);
    expect(buttons.join()).not.toMatch(/share|cloud|edit/i);
    await close();
  });

  it.each(['metric', 'us'] as const)(
    'keeps °F in step with °C, and round, when zoomed: %s',
    async (units) => {
      const { page, close } = await openFile(browser, write(`zoom-${units}`, {}, units));
      const box = (await page.locator('figure.plot .live .nsewdrag').first().boundingBox())!;
      await page.mouse.move(box.x + box.width * 0.5, box.y + box.height * 0.2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width * 0.7, box.y + box.height * 0.45, { steps: 5 });
      await page.mouse.up();
      await page.waitForTimeout(500);
      const axes = await page.$eval(
        'figure.plot .live',
        (live, of) => {
          const { yaxis, yaxis2 } = (
            live as unknown as {
              _fullLayout: Record<
                'yaxis' | 'yaxis2',
                { range: number[]; tickvals: number[]; ticktext: string[] }
              >;
            }
          )._fullLayout;
          const { tickvals, ticktext } = of === 'us' ? yaxis : yaxis2;
          return { left: yaxis.range, right: yaxis2.range, tickvals, ticktext };
        },
        units,
      );
      expect(axes.right).toEqual(axes.left);
      expect(axes.left[1]! - axes.left[0]!).toBeLessThan(150);
      const inSight = axes.tickvals.filter((c) => c >= axes.left[0]! && c <= axes.left[1]!);
      expect(inSight.length).toBeGreaterThanOrEqual(4);
      axes.tickvals.forEach((c, i) => {
        expect(c * 1.8 + 32).toBeCloseTo(Number(axes.ticktext[i]), 6);
      });
      await close();
    },
  );
});
