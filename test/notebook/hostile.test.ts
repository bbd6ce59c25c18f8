import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runNotebook } from '../../dist/notebook';

const folder = mkdtempSync(path.join(tmpdir(), 'hostile-'));
afterAll(() => rmSync(folder, { recursive: true }));

const write = (
  name: string,
  cells: readonly (string | { readonly source: string; readonly tags: string[] })[],
) => {
  const file = path.join(folder, `${name}.ipynb`);
  const code = cells.map((cell, i) => ({
    cell_type: 'code',
    id: `cell-${i}`,
    metadata: typeof cell === 'string' ? {} : { tags: cell.tags },
    source: typeof cell === 'string' ? cell : cell.source,
    outputs: [],
    execution_count: null,
  }));
  writeFileSync(file, JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells: code }));
  return file;
};
const out = { outFolder: path.join(folder, 'out') };

describe('a notebook that means the runner ill', () => {
  it('unsets the channel, and is run all the same', async () => {
    const unset = 'process.send = undefined as any; (process as any).channel = null;';
    const { htmlPath } = await runNotebook(write('unset', [unset, 'console.log("last");']), out);
    expect(readFileSync(htmlPath, 'utf8')).toContain('last');
  });

  it('disconnects: an error that names the cell', async () => {
    const run = runNotebook(write('disconnects', ['process.disconnect();', 'console.log("last");']), out);
    await expect(run).rejects.toThrow(/cell .*ended with exit code/s);
  });

  it('takes values with any line ends in them', async () => {
    const value = 'a\u2028b\u2029c\nd"`$';
    const file = write('values', [
      { source: "let text = '';", tags: ['parameters'] },
      'console.log(JSON.stringify([...text].map((c) => c.codePointAt(0))));',
    ]);
    const { htmlPath } = await runNotebook(file, { ...out, parameters: { text: value } });
    expect(readFileSync(htmlPath, 'utf8')).toContain(JSON.stringify([...value].map((c) => c.codePointAt(0))));
  });

  it('shows live markup as text', async () => {
    const source =
      "require('tslab').display.html('<meta http-equiv=refresh content=\"0;url=x\"><table><tr><td>kept</td></tr></table><img src=x onerror=y>');";
    const { htmlPath } = await runNotebook(write('markup', [source]), out);
    const page = readFileSync(htmlPath, 'utf8');
    expect(page).toContain('<td>kept</td>');
    expect(page.match(/<meta /g)).toHaveLength(3);
    expect(page).not.toMatch(/<img[^>]*onerror/);
  });
});

it('its process ends with a parent that is killed, even in a cell that never yields', async () => {
  const mark = path.join(folder, 'pid');
  const file = write('orphan', [
    `require('node:fs').writeFileSync(${JSON.stringify(mark)}, String(process.pid)); while (true) {}`,
  ]);
  const runner = `require(${JSON.stringify(path.resolve('dist/notebook'))}).runNotebook(${JSON.stringify(file)}, ${JSON.stringify(out)})`;
  const parent = spawn(process.execPath, ['-e', runner], { stdio: 'ignore' });
  const until = async (test: () => boolean) => {
    for (let k = 0; k < 300 && !test(); k++) await new Promise((done) => setTimeout(done, 100));
    expect(test()).toBe(true);
  };
  const pid = () => Number(readFileSync(mark, 'utf8'));
  await until(() => {
    try {
      return pid() > 0;
    } catch {
      return false;
    }
  });
  parent.kill('SIGKILL');
  await until(() => {
    try {
      process.kill(pid(), 0);
      return false;
    } catch {
      return true;
    }
  });
}, 60_000);
