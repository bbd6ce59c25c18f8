import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runNotebook } from '../../dist/notebook';
import { TemperbookError } from '../../dist/quantity';

const folder = mkdtempSync(join(tmpdir(), 'temperbook-broken-'));
const code = (source: string, more: object = {}) => ({
  cell_type: 'code',
  id: 'one',
  metadata: {},
  source,
  outputs: [],
  execution_count: null,
  ...more,
});
const write = (name: string, cells: readonly unknown[], before = '') => {
  const path = join(folder, `${name}.ipynb`);
  writeFileSync(path, before + JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells }));
  return path;
};
const out = { outFolder: join(folder, 'out') };

describe('a broken notebook names what is broken', () => {
  it.each([
    ['metadata null', code('1', { metadata: null }), /cell 2 .*metadata null/s],
    ['tags 5', code('1', { metadata: { tags: 5 } }), /cell 2 .*tags 5/s],
    ['no source', code('1', { source: null }), /cell 2 .*source null/s],
    ['a kind of its own', code('1', { cell_type: 'code?' }), /cell 2 .*cell_type "code\?"/s],
    ['no cell', null, /cell 2 .*null/s],
  ])('%s', async (name, cell, message) => {
    const run = runNotebook(write(name, [code('1'), cell]), out);
    await expect(run).rejects.toThrow(TemperbookError);
    await expect(run).rejects.toThrow(message);
  });

  it('a byte-order mark in front is read over', async () => {
    const run = await runNotebook(write('mark', [code('console.log(1)')], '\ufeff'), out);
    expect(run.htmlPath).toMatch(/mark\.html$/);
  });
});

it('a cell that never ends is ended at its limit, and says so', async () => {
  const run = runNotebook(write('endless', [code('while (true) {}')]), { ...out, cellLimitS: 3 });
  await expect(run).rejects.toThrow(/longer than the 3 s/);
}, 30_000);
