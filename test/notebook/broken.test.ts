import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
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

describe('a notebook that is not of this kit, or not whole', () => {
  beforeAll(() => {
    mkdirSync(join(folder, 'node_modules'));
    symlinkSync(resolve('.'), join(folder, 'node_modules/temperbook'));
  });

  it.each([
    ['a name the kit had', "import { judgeLog } from 'temperbook';", /judgeLog.*another version of the kit/s],
    [
      'a name a group had',
      "import { tables } from 'temperbook';\ntables.modelRows([]);",
      /modelRows.*another version of the kit/s,
    ],
  ])('%s', async (name, source, message) => {
    await expect(runNotebook(write(name.replace(/ /g, '-'), [code(source)]), out)).rejects.toThrow(message);
  });

  it('a parameter that its cell no longer sets', async () => {
    const cells = [
      code("let alloy = 'A356.0';", { metadata: { tags: ['parameters'] } }),
      code('console.log(alloy, temper);', { id: 'two' }),
    ];
    await expect(runNotebook(write('no-temper', cells), out)).rejects.toThrow(
      /temper.*the cell tagged "parameters" should set it: let temper = …/s,
    );
  });
});

it('a cell that never ends is ended at its limit, and says so', async () => {
  const run = runNotebook(write('endless', [code('while (true) {}')]), { ...out, cellLimitS: 1 });
  await expect(run).rejects.toThrow(/longer than the 1 s/);
}, 30_000);
