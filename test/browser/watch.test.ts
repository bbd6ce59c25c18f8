import { spawn } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { DESK, PHONE, startChromium } from './chromiumPage';

let browser: Browser;
beforeAll(async () => {
  browser = await startChromium();
});

const lines = readFileSync('data/demo/mast-foot-two-probes.csv', 'utf8').split(/(?<=\n)/);
const hot = lines.findIndex((line) => Number(line.split(',')[1]) > 230);

describe('the page of a watch in a real browser', () => {
  it.each([DESK, PHONE])('shows a stop within a second, and the end', async (viewport) => {
    const folder = mkdtempSync(path.join(tmpdir(), 'watch-'));
    const log = path.join(folder, 'log.csv');
    let next = 60;
    writeFileSync(log, lines.slice(0, next).join(''));
    // A row every 100 ms, as a logger does.
    const dripping = setInterval(() => appendFileSync(log, lines[next++]!), 100);
    const child = spawn(
      path.resolve('dist/cli/main.js'),
      ['watch', 'log.csv', '--alloy', 'A356.0', '--temper', 'T6', '--out', 'out'],
      { cwd: folder },
    );
    const ended = new Promise((resolve) => child.once('close', resolve));
    const url = await new Promise<string>((resolve) => {
      let said = '';
      child.stdout.on('data', (piece) => {
        said += piece;
        const found = /Page {2}(http:\S+)/.exec(said);
        if (found) resolve(found[1]!);
      });
    });
    const context = await browser.newContext(viewport);
    const page = await context.newPage();
    const complaints: string[] = [];
    const requests: string[] = [];
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('request', (one) => requests.push(one.url()));
    await page.goto(url);
    await page.waitForFunction(() => document.querySelector('h1')?.textContent === 'Go on');
    clearInterval(dripping);
    appendFileSync(log, lines.slice(next, hot + 1).join(''));
    const startMs = Date.now();
    await page.waitForFunction(
      () => document.querySelector('h1')?.textContent?.startsWith('STOP: TC1'),
      undefined,
      {
        polling: 20,
      },
    );
    expect(Date.now() - startMs).toBeLessThan(1000);
    const { size, wide } = await page.evaluate(() => ({
      size: Number.parseFloat(getComputedStyle(document.querySelector('.temp')!).fontSize),
      wide: document.documentElement.scrollWidth - innerWidth,
    }));
    expect(size).toBeGreaterThanOrEqual(40);
    expect(wide).toBeLessThanOrEqual(0);
    child.kill('SIGINT');
    await page.waitForFunction(() =>
      document.querySelector('h1')?.textContent?.startsWith('The watch has ended'),
    );
    await ended;
    expect(requests.filter((one) => !one.startsWith(url))).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
