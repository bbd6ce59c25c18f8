import { execFile, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inFull } from '../setup/extent';

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

  it('takes less than 120 MB in all', () => {
    const at = path.join(folder, 'node_modules');
    const bytes = readdirSync(at, { recursive: true, encoding: 'utf8' })
      .map((file) => lstatSync(path.join(at, file)).blocks * 512)
      .reduce((sum, one) => sum + one, 0);
    expect(bytes / 1e6).toBeLessThan(120);
    expect(bytes / 1e6).toBeGreaterThan(50);
  });

  it('starts within 150 ms beyond what Node itself takes', () => {
    // Of the processor: what a busy machine adds is not the kit's.
    const cpu = 'const { user, system } = process.cpuUsage(); console.log((user + system) / 1000)';
    const timed = (text: string) =>
      Number(
        spawnSync(process.execPath, ['-e', `${text}; ${cpu}`], { cwd: folder, encoding: 'utf8' }).stdout,
      );
    const least = (text: string) => Math.min(...Array.from({ length: 7 }, () => timed(text)));
    expect(least('')).toBeGreaterThan(0);
    expect(least("require('temperbook')") - least('')).toBeLessThan(150);
  });

  it('can import it by name from an ES module', async () => {
    writeFileSync(
      path.join(folder, 'esm.mjs'),
      "import kit, { judge, units } from 'temperbook'; console.log(typeof judge, units.celsiusToFahrenheit(100), kit.units === units);",
    );
    const { stdout } = await exec(process.execPath, ['esm.mjs'], { cwd: folder });
    expect(stdout).toBe('function 212 true\n');
  });
});

describe('the README of the published package', () => {
  const packed = (file: string) => path.join(folder, 'node_modules/temperbook', file);
  const readme = readFileSync(path.join(root, 'README.md'), 'utf8');

  it('has no link that leads nowhere, nor has DEVELOPERS.md', () => {
    const links = ['README.md', 'DEVELOPERS.md'].flatMap((file) =>
      [...readFileSync(packed(file), 'utf8').matchAll(/\]\(([^)#\s]+)[^)]*\)/g)].map(([, link]) => link!),
    );
    expect(links.length).toBeGreaterThan(2);
    expect(links.filter((link) => !/^https?:/.test(link) && !existsSync(packed(link)))).toEqual([]);
  });

  it('has ten lines that run as they stand', () => {
    const [, code] = /```js\n([\s\S]*?)```/.exec(readme)!;
    writeFileSync(path.join(folder, 'tour.js'), code!);
    const { status, stdout, stderr } = spawnSync(process.execPath, ['tour.js'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toContain('TC2 block 28 mm');
    expect(existsSync(path.join(folder, 'results/mast-foot-weld-record.html'))).toBe(true);
  });

  const commands = [...readme.matchAll(/^npx (temperbook (?!--help|jupyter).*?) *(?:#.*)?$/gm)].map(
    ([, command]) => command!,
  );
  it('has commands', () => expect(commands.length).toBeGreaterThan(3));

  /** What a shop has lying there when it reads the README: logs, charts, a coater's paper, coupons, a record. */
  beforeAll(async () => {
    const put = (file: string, text: string) => writeFileSync(path.join(folder, file), text);
    const demo = (file: string, as: string) => cpSync(packed(`data/demo/${file}`), path.join(folder, as));
    for (const part of ['notebooks', 'data'])
      cpSync(packed(part), path.join(folder, part), { recursive: true });
    demo('mast-foot-two-probes.csv', 'my-log.csv');
    demo('mast-foot-two-probes.csv', 'logs/one.csv');
    demo('furnace-chart.csv', 'furnace.csv');
    demo('hinge-block-coupons.json', 'coupons.json');
    const rows = readFileSync(path.join(folder, 'furnace.csv'), 'utf8').split('\r\n');
    const at = (clock: string) => rows.findIndex((row) => row.startsWith(clock));
    put('solution.csv', rows.slice(0, at('2026-04-03 08:')).join('\r\n'));
    put('ageing.csv', [...rows.slice(0, 3), ...rows.slice(at('2026-04-03 20:'))].join('\r\n'));
    put(
      'coater.json',
      '{"lot": "HB-07", "set": "390F", "time": "20min", "counted": "from the door", "oven": "class 5"}',
    );
    const read = (s: number) => (s < 25 ? 20 : s < 95 ? 0 : s < 110 ? 40 : 95);
    const check = Array.from({ length: 241 }, (_, s) => [s, read(s), read(s)].join());
    put('check.csv', ['Time (s),TC1 lip 14 mm (°C),TC2 tube 22 mm (°C)', ...check, ''].join('\n'));
    const weld = ['review', 'my-log.csv', '--alloy', 'A356-T6', '--job', 'part=HB-09', '--out', 'results'];
    if (inFull) await exec('npx', ['--no', '--', 'temperbook', ...weld], { cwd: folder });
  }, 240_000);

  it.each(inFull ? commands : commands.slice(0, 1))('%s', (command) => {
    const words = wordsOf(command);
    // It goes on until somebody ends it.
    const ended = words[1] === 'watch' ? ({ timeout: 20_000, killSignal: 'SIGINT' } as const) : {};
    const [program, ...before] =
      words[1] === 'watch' ? ['node_modules/.bin/temperbook'] : ['npx', '--no', '--', 'temperbook'];
    const { status, stderr } = spawnSync(program!, [...before, ...words.slice(1)], {
      cwd: folder,
      encoding: 'utf8',
      ...ended,
    });
    expect(stderr.replace(/^.*: \d+ %\n/gm, '')).not.toMatch(/expected|Error|wrong/i);
    // A furnace chart that does not meet its schedule has a code of its own.
    expect([0, words[1] === 'chart' ? 1 : 0]).toContain(status);
  });
});

/** The words of a command line, with those in quotes whole. */
const wordsOf = (command: string): string[] =>
  [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain!);
