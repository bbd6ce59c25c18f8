import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readLog, units } from '../../dist';
import { CellError, type Notebook, runNotebook } from '../../dist/notebook';
import { inFull } from '../setup/extent';
import { metricAlone, wordsOfPage } from '../setup/metricAlone';

// In short, the one whose probes have lengths in their names.
const chosen = inFull ? /\.ipynb$/ : /^01-.*\.ipynb$/;
const notebooks = readdirSync('notebooks').filter((file) => chosen.test(file));

/** Every text of the demo's files, where people named things. */
const demo = readdirSync('data/demo').map((file) => path.join('data/demo', file));
const textsIn = (value: unknown): string[] =>
  typeof value === 'string' ? [value] : Object.values(value ?? {}).flatMap(textsIn);
const NAMES = [
  ...demo
    .filter((file) => file.endsWith('.json'))
    .flatMap((file) => textsIn(units.readUserJson(file, 'the file'))),
  ...demo
    .filter((file) => file.endsWith('.csv'))
    .flatMap((file) => readLog(file).channels.map(({ name }) => name)),
];

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'us-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe.each(notebooks)('notebooks/%s in US units', (name) => {
  it('leaves no °C, mm or MPa alone on any page it makes', async () => {
    const outFolder = path.join(folder, name);
    await runNotebook(path.join('notebooks', name), { parameters: { units: 'us' }, outFolder });
    const pages = readdirSync(outFolder).filter((file) => file.endsWith('.html'));
    expect(pages.length).toBeGreaterThan(0);
    for (const page of pages)
      expect(metricAlone(wordsOfPage(readFileSync(path.join(outFolder, page), 'utf8'), NAMES)), page).toEqual(
        [],
      );
    const run: Notebook = JSON.parse(readFileSync(path.join(outFolder, name), 'utf8'));
    expect(JSON.stringify(run.cells)).toMatch(/°F|ksi|\bin\b/);
  }, 300_000);
});

describe('a notebook that knows no units', () => {
  it('says so, and names the parameters it has', async () => {
    const run = runNotebook('test/notebook/fixtures/ok.ipynb', {
      parameters: { units: 'us' },
      outFolder: folder,
    });
    await expect(run).rejects.toThrow(/no parameter "units".*Expected: one of /);
    await expect(run).rejects.not.toThrow(CellError);
  });
});
