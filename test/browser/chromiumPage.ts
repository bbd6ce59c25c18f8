import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { CHROMIUM } from './programs';

let running: Promise<Browser> | undefined;

/** A browser that talks to nobody of its own accord; one for all tests of a worker, with which it ends. */
export function startChromium(): Promise<Browser> {
  running ??= chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return running;
}

/** An opened page and what it did that it should not do. */
export interface OpenedPage {
  readonly page: Page;
  /** Console errors and warnings, uncaught exceptions, dialogs. */
  readonly complaints: readonly string[];
  /** Every address asked for, the page's own file apart. */
  readonly requests: readonly string[];
  close(): Promise<void>;
}

export const TABLET = { viewport: { width: 768, height: 1024 } } as const;
export const DESK = { viewport: { width: 1280, height: 800 } } as const;
export const PHONE = {
  viewport: { width: 390, height: 844 },
  isMobile: true,
  hasTouch: true,
  deviceScaleFactor: 2,
} as const;

/** What the margins of our pages leave of a sheet, 16 mm at the sides and 12 mm above and below, at 96 px to the inch. */
export const PAPERS = [
  { name: 'A4', width: 673, height: 1032 },
  { name: 'Letter', width: 695, height: 965 },
] as const;

/** Opens a file offline and waits until its figures are drawn, unless scripts are off. */
export async function openFile(
  browser: Browser,
  path: string,
  options: BrowserContextOptions = DESK,
): Promise<OpenedPage> {
  const context = await browser.newContext({ ...options, offline: true });
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  const own = pathToFileURL(path).href;
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (request.url() !== own) requests.push(request.url());
  });
  await page.goto(own);
  const isLive = options.javaScriptEnabled !== false && (await page.locator('figure.plot').count()) > 0;
  if (isLive) await page.waitForSelector('html[data-figures="drawn"]');
  return { page, complaints, requests, close: () => context.close() };
}
