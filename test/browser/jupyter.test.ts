import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inFull } from '../setup/extent';
import { startChromium } from './chromiumPage';
import { runAllCells } from './jupyterPage';
import { type JupyterServer, startJupyter } from './jupyterServer';

const CELLS_TIMEOUT_MS = 240_000;
const FOLDERS = ['notebooks', 'test/notebook/fixtures'];
// The runner executes every notebook in `test/notebook`; in short, what Jupyter adds is seen on the first of them.
const notebooks = readdirSync('notebooks')
  .filter((file) => file.endsWith('.ipynb'))
  .sort()
  .slice(0, inFull ? undefined : 1);

let browser: Browser;
let home: string;
const servers = new Map<string, JupyterServer>();

beforeAll(async () => {
  home = mkdtempSync(path.join(tmpdir(), 'home-'));
  browser = await startChromium();
  for (const folder of FOLDERS) servers.set(folder, await startJupyter(folder, home));
});

afterAll(async () => {
  for (const server of servers.values()) await server.stop();
  rmSync(home, { recursive: true });
});

async function run(folder: string, notebook: string) {
  const page = await browser.newPage();
  try {
    return await runAllCells(page, servers.get(folder)!.urlOf(notebook), CELLS_TIMEOUT_MS);
  } finally {
    await page.close({ runBeforeUnload: false });
  }
}

describe('in real Jupyter', () => {
  const drawn = inFull ? [['test/notebook/fixtures', 'figures.ipynb']] : [];
  it.each([...notebooks.map((name) => ['notebooks', name]), ...drawn])(
    '%s/%s: every cell runs, every figure is drawn',
    async (folder, name) => {
      const file = path.join(folder, name);
      const before = readFileSync(file, 'utf8');
      const cells = await run(folder, name);
      for (const cell of cells) expect(cell, cell.source).toMatchObject({ status: 'ok', errors: '' });
      for (const cell of cells) expect(cell.drawn, cell.source).toBe(cell.figures);
      const figures = cells.reduce((sum, cell) => sum + cell.figures, 0);
      expect(figures > 0).toBe(cells.some((cell) => /\bshow\(/.test(cell.source)));
      expect(readFileSync(file, 'utf8')).toBe(before);
    },
    CELLS_TIMEOUT_MS + 60_000,
  );

  it.each(inFull ? ['throws', 'type-error', 'rejects'] : ['rejects'])(
    'tells that %s.ipynb failed',
    async (name) => {
      const cells = await run('test/notebook/fixtures', `${name}.ipynb`);
      expect(cells.some((cell) => cell.status !== 'ok' || cell.errors !== '')).toBe(true);
    },
  );

  it('keeps kernel, settings and runtime files out of the home folder', () => {
    expect(readdirSync(home)).toEqual([]);
    expect(JSON.parse(readFileSync('.jupyter/data/kernels/tslab/kernel.json', 'utf8'))).toMatchObject({
      display_name: 'TypeScript',
      argv: expect.arrayContaining([path.resolve('node_modules/tslab/bin/tslab')]),
    });
  });
});
