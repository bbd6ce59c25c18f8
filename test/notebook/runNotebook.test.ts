import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CellError, type Notebook, type NotebookProgress, runNotebook } from '../../dist/notebook';
import { inFull } from '../setup/extent';
import { unwrapped } from '../setup/unwrapped';

const fixture = (name: string) => join(__dirname, 'fixtures', `${name}.ipynb`);
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'notebook-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('a notebook that runs', () => {
  const progress: NotebookProgress[] = [];
  let copy: Notebook;
  let page: string;
  let before: string;
  const outputsOf = (id: string) => copy.cells.find((cell) => cell.id === id)?.outputs;

  beforeAll(async () => {
    before = readFileSync(fixture('ok'), 'utf8');
    const run = await runNotebook(fixture('ok'), {
      parameters: { startC: 300, alloy: '6061' },
      outFolder: join(folder, 'ok'),
      onProgress: (p) => progress.push(p),
    });
    copy = JSON.parse(readFileSync(run.notebookPath, 'utf8'));
    page = readFileSync(run.htmlPath, 'utf8');
  });

  it('leaves the notebook itself as it was and nothing half-written beside the results', () => {
    expect(readFileSync(fixture('ok'), 'utf8')).toBe(before);
    expect(readdirSync(join(folder, 'ok')).sort()).toEqual(['ok.html', 'ok.ipynb']);
  });

  it('captures what was printed, in order, on the stream it was printed to', () => {
    expect(outputsOf('compute')).toEqual([
      { output_type: 'stream', name: 'stdout', text: 'plate of 6061 starts at 300 C\n' },
      { output_type: 'stream', name: 'stderr', text: 'a warning\n' },
      { output_type: 'stream', name: 'stdout', text: 'TemperbookError\n' },
    ]);
  });

  it('shows the value of a last expression, awaits included, and nothing for the parameters it set', () => {
    expect(outputsOf('wait')).toEqual([{ output_type: 'stream', name: 'stdout', text: '3\n' }]);
    expect(outputsOf('injected-parameters')).toEqual([]);
  });

  it('captures displays in order; an updated one is replaced in place', () => {
    expect(outputsOf('show')?.map((o) => ('data' in o ? o.data : o.text))).toEqual([
      { 'text/html': '<table><tr><td>20 &lt; 30</td></tr></table>' },
      { 'text/plain': 'worked' },
      { 'image/svg+xml': expect.stringContaining('<title>a bar</title>') },
      { 'application/vnd.unknown': 'xyz' },
      `log: ./ok.ipynb false [150,180]\nown files go to ${join(folder, 'ok')}\n`,
    ]);
  });

  it('counts the code cells', () => {
    const counts = copy.cells.filter((c) => c.cell_type === 'code').map((c) => c.execution_count);
    expect(counts).toEqual([1, 2, 3, 4, 5]);
  });

  it('tells of every cell when it starts and when it ends, by the heading above it', () => {
    const told = progress.filter((p) => p.state === 'finished').map(({ cell }) => cell);
    expect(told.map((cell) => `${cell.number}/${cell.count} ${cell.title}`)).toEqual([
      '1/5 Cooling of a plate',
      '2/5 Cooling of a plate',
      '3/5 Let it cool',
      '4/5 Let it cool',
      '5/5 What it looks like',
    ]);
    expect(progress.filter((p) => p.state === 'running').length).toBeGreaterThanOrEqual(5);
  });

  it('makes a page that holds its results, with text escaped and nothing to load', () => {
    expect(unwrapped(page)).toContain('A &lt;script&gt;alert(1)&lt;/script&gt; in text stays text.');
    expect(unwrapped(page)).toContain('<td>20 &lt; 30</td>');
    expect(page).toContain('alt="a bar"');
    expect(page).toContain('[not shown here: application/vnd.unknown]');
    expect(page).toContain("script-src 'none'");
    expect(page.match(/(?:src|href)="(?!data:)[^"]*"/g)).toBeNull();
  });

  it('leaves the code out when asked, but never the parameters that were set', async () => {
    const { htmlPath } = await runNotebook(fixture('ok'), {
      parameters: { alloy: '6061' },
      outFolder: join(folder, 'results'),
      html: 'results only',
    });
    const results = readFileSync(htmlPath, 'utf8');
    expect(page).toContain('interface Reading');
    expect(results).not.toContain('interface Reading');
    expect(results).toContain('alloy = &quot;6061&quot;;');
    expect(results).toContain('plate of 6061 starts at 200 C');
  });
});

describe('a notebook beside which a package is installed while it runs', () => {
  it('runs on', async () => {
    const beside = mkdtempSync(join(tmpdir(), 'beside-'));
    const manifest = join(beside, 'node_modules/depth/package.json');
    mkdirSync(join(manifest, '..'), { recursive: true });
    writeFileSync(manifest, JSON.stringify({ name: 'depth', version: '1.0.0', types: 'index.d.ts' }));
    writeFileSync(join(manifest, '../index.d.ts'), 'export declare const depthMm: number;');
    writeFileSync(join(manifest, '../index.js'), 'exports.depthMm = 8;');
    const cells = [
      "import { depthMm } from 'depth';",
      `import { appendFileSync } from 'node:fs';\nappendFileSync(${JSON.stringify(manifest)}, ' ');`,
      'await new Promise((resolve) => setTimeout(resolve, 200));',
      'console.log(depthMm);',
    ].map((source, i) => ({
      cell_type: 'code',
      id: `cell-${i}`,
      metadata: {},
      execution_count: null,
      outputs: [],
      source,
    }));
    const notebook = join(beside, 'weld.ipynb');
    writeFileSync(notebook, JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells }));
    const { notebookPath } = await runNotebook(notebook, { outFolder: join(beside, 'out') });
    const run: Notebook = JSON.parse(readFileSync(notebookPath, 'utf8'));
    expect(run.cells.at(-1)?.outputs).toEqual([{ output_type: 'stream', name: 'stdout', text: '8\n' }]);
    rmSync(beside, { recursive: true });
  });
});

describe('a notebook that fails', () => {
  // One run for whoever asks: each is a process and a compiler of its own.
  const failures = new Map<string, Promise<CellError>>();
  const failureOf = (name: string): Promise<CellError> => {
    const known = failures.get(name) ?? failed(name);
    failures.set(name, known);
    return known;
  };
  const failed = async (name: string): Promise<CellError> => {
    const run = runNotebook(fixture(name), { outFolder: join(folder, name) });
    const error = await run.then(
      () => undefined,
      (reason: unknown) => reason,
    );
    if (!(error instanceof CellError)) throw new Error(`${name} should have failed in a cell: ${error}`);
    return error;
  };

  // In short one of each way to fail.
  const ways: readonly (readonly [name: string, line: number | undefined, message: string])[] = [
    ['throws', 8, "TypeError: Cannot read properties of undefined (reading 'length')"],
    ['throws-in-library', 3, 'thickness is not usable. Found: NaN'],
    ['type-error', 2, "Type 'number' is not assignable to type 'string'. (and 1 more further down)"],
    ['syntax-error', 2, 'Expression expected'],
    ['rejects', 2, 'nobody waits for me'],
    ['rejects-late', 4, 'rejected after the last cell'],
    ['awaits-rejection', 3, 'TypeError: broken wire'],
    ['no-such-module', 1, "Cannot find module 'no-such-module'"],
    ['earlier-function', 3, 'RangeError: nothing to halve (in cell 2 of 4 ("before"), line 3)'],
    ['throws-text', undefined, 'thrown: just text'],
    ['exits', undefined, 'the process ended with exit code 3'],
  ];
  const short = /^(?:throws|type-error|rejects-late|earlier-function|exits)$/;
  it.each(ways.filter(([name]) => inFull || short.test(name)))(
    '%s: tells the cell, line %s and the real message, and writes nothing',
    async (name, line, message) => {
      const error = await failureOf(name);
      expect(error).toMatchObject({ cellId: 'fails', cellNumber: 3, line });
      expect(error.message).toContain(`${name}.ipynb: cell 3 of 4 ("fails")`);
      expect(error.message).toContain(message);
      expect(readdirSync(join(folder, name))).toEqual([]);
    },
  );

  it('shows the lines around the failing one', async () => {
    const { excerpt } = await failureOf('throws');
    expect(excerpt.split('\n')[2]).toBe('>   8 |   return part.name.length;');
    expect(excerpt.split('\n')).toHaveLength(5);
  });
});

describe('bad input', () => {
  const run = (path: string, outFolder = join(folder, 'bad')) => runNotebook(path, { outFolder });

  it('refuses to write over the notebook', async () => {
    await expect(run(fixture('ok'), join(__dirname, 'fixtures'))).rejects.toThrow(
      'the results would overwrite the notebook itself',
    );
  });

  it.each([
    [join(__dirname, 'none.ipynb'), 'the notebook cannot be opened'],
    [__filename, 'this file is not a notebook'],
    [join(__dirname, '../../package.json'), 'this file is not a notebook'],
  ])('refuses %s in plain words', async (path, message) => {
    await expect(run(path)).rejects.toThrow(message);
  });

  it('refuses an unknown parameter before anything runs', async () => {
    const parameters = { colour: 'red' };
    await expect(runNotebook(fixture('ok'), { parameters, outFolder: join(folder, 'bad') })).rejects.toThrow(
      'no parameter "colour". Expected: one of label, alloy, startC',
    );
  });
});
