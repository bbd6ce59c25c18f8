import { execFile, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const exec = promisify(execFile);
const root = path.join(__dirname, '../..');
let folder: string;

/** Runs a script in the consumer's folder and gives what it printed. */
async function script(text: string): Promise<string> {
  const { stdout } = await exec(process.execPath, ['-e', text], { cwd: folder });
  return stdout.trim();
}

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'consumer-'));
  await exec('npm', ['pack', '--ignore-scripts', '--pack-destination', folder], { cwd: root });
  const [tarball] = readdirSync(folder);
  writeFileSync(
    path.join(folder, 'package.json'),
    JSON.stringify({ name: 'shop', version: '1.0.0', private: true }),
  );
  const install = [
    'install',
    '--omit=dev',
    '--ignore-scripts',
    '--no-audit',
    '--no-fund',
    '--prefer-offline',
  ];
  await exec('npm', [...install, `./${tarball}`], { cwd: folder });
}, 240_000);

afterAll(() => rmSync(folder, { recursive: true }));

describe('a folder that installed the published package', () => {
  it('has it without danfojs and without this project', () => {
    expect(existsSync(path.join(folder, 'node_modules/danfojs-node'))).toBe(false);
    expect(readdirSync(path.join(folder, 'node_modules/temperbook')).sort()).toEqual([
      'DEVELOPERS.md',
      'LICENSE',
      'README.md',
      'data',
      'dist',
      'notebooks',
      'package.json',
    ]);
  });

  it('can require it, alloy cards and all', async () => {
    const printed = await script(
      "const kit = require('temperbook'); console.log(kit.loadAlloy('A356.0').designation, typeof kit.readLog)",
    );
    expect(printed).toBe('A356.0 function');
  });

  it('is told in plain words that a data frame takes danfojs', async () => {
    // A copy in a folder further up, if any, is none of this folder's.
    const hide =
      "const m = require('module'), find = m._resolveFilename; m._resolveFilename = function (id) { if (id === 'danfojs-node') throw new Error('hidden'); return find.apply(this, arguments); };";
    const printed = await script(
      `${hide} try { const kit = require('temperbook'); kit.exportTable([{ a: 1 }], 'a.csv'); kit.exportTable([{ a: 1 }], 'a.xlsx') } catch (error) { console.log(error.message) }`,
    );
    expect(printed).toBe(
      "data frames and .xlsx files are made by danfojs-node, which is not installed. Install it in the notebook's folder (npm install danfojs-node), or write a .csv file, which needs nothing.",
    );
  });

  it('runs a notebook of its own by npx temperbook, with paths as seen from there', () => {
    cpSync(path.join(root, 'test/notebook/fixtures/ok.ipynb'), path.join(folder, 'cooling.ipynb'));
    const args = [
      'temperbook',
      'run',
      'cooling.ipynb',
      '--set',
      'alloy=6061',
      '--set',
      'log=my.csv',
      '--out',
      'results',
    ];
    const { status, stdout, stderr } = spawnSync('npx', ['--no', ...args], { cwd: folder, encoding: 'utf8' });
    expect(stderr).toContain('[5/5] What it looks like');
    expect(stdout).toContain('plate of 6061 starts at 200 C');
    expect(stdout).toContain(`log: ${path.join(folder, 'my.csv')} false`);
    expect(stdout).toContain(`Results   ${path.join('results', 'cooling.html')}`);
    expect(status).toBe(0);
    expect(readFileSync(path.join(folder, 'results/cooling.html'), 'utf8')).toContain('Cooling of a plate');
  });
});
