import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const fixture = (name: string) => path.resolve(`test/notebook/fixtures/${name}.ipynb`);
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'run-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('temperbook run', () => {
  it('runs a notebook with values set, prints what it prints, and says where the results are', async () => {
    const settings = ['alloy=6061', 'startC=250', 'log=my.csv', 'out=elsewhere'].flatMap((one) => [
      '--set',
      one,
    ]);
    const { status, stdout, stderr } = await temperbook(
      folder,
      'run',
      fixture('ok'),
      ...settings,
      '--out',
      'results',
    );
    expect(stderr).toContain('[3/5] Let it cool');
    expect(stderr).toContain('a warning');
    expect(stdout).toContain('plate of 6061 starts at 250 C');
    expect(stdout).toContain(`log: ${path.join(folder, 'my.csv')} `);
    expect(stdout).toContain(`own files go to ${path.join(folder, 'elsewhere')}`);
    expect(stdout).toContain('Results   results/ok.html\nNotebook  results/ok.ipynb\n');
    expect(readFileSync(path.join(folder, 'results/ok.html'), 'utf8')).toContain('interface Reading');
    expect(status).toBe(0);
  });

  it('gives a notebook that asks for it the folder of the results, and leaves the code out with --no-code', async () => {
    const { stdout } = await temperbook(folder, 'run', fixture('ok'), '--out', 'here', '--no-code');
    expect(stdout).toContain(`own files go to ${path.join(folder, 'here')}`);
    expect(readFileSync(path.join(folder, 'here/ok.html'), 'utf8')).not.toContain('interface Reading');
  });

  it('prints the cells meant for a terminal only, where a notebook marks some', async () => {
    const { stdout, stderr } = await temperbook(folder, 'run', fixture('terminal'), '--out', 'terminal');
    expect(stdout).toContain('the answer\na table\n');
    expect(stdout).not.toContain('for the page only');
    expect(stderr).toContain('a warning is always told');
  });

  it('shows that a long cell is alive and how long it took', async () => {
    const { stderr } = await temperbook(folder, 'run', fixture('slow'), '--out', 'slow');
    expect(stderr).toMatch(/\[1\/1\] A long cell: done in [2-9]\.\d s/);
  });

  it('tells which cell failed and why, without a stack, and exits with 1', async () => {
    const { status, stdout, stderr } = await temperbook(folder, 'run', fixture('throws'), '--out', 'failed');
    expect(status).toBe(1);
    expect(stdout).toBe('about to fail\n');
    expect(stderr).toContain('cell 3 of 4 ("fails"), line 8: TypeError: Cannot read properties of undefined');
    expect(stderr).toContain('>   8 |   return part.name.length;');
    expect(stderr).not.toMatch(/^ +at /m);
    expect(existsSync(path.join(folder, 'failed/throws.ipynb'))).toBe(false);
  });

  it.each([
    [['run', 'none.ipynb', '--out', 'x'], 'none.ipynb: the notebook cannot be opened'],
    [
      ['run', fixture('ok'), '--set', 'aloy=6061', '--out', 'x'],
      'has no parameter "aloy". Expected: one of label',
    ],
    [['run', fixture('ok'), '--set', 'startC=hot', '--out', 'x'], 'Expected: a number such as 0.15'],
  ])('exits with 1 and a plain message for bad input: %j', async (args, message) => {
    const { status, stderr } = await temperbook(folder, ...args);
    expect(stderr).toContain(message);
    expect(status).toBe(1);
  });
});
