import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

let folder: string;

const logText = (peakC: number): string =>
  [
    'Time (s),Hinge (°C)',
    ...Array.from({ length: 401 }, (_, i) => {
      const share = i < 40 ? i / 40 : 1 - (i - 40) / 361;
      return `${2 * i},${(20 + (peakC - 20) * share).toFixed(1)}`;
    }),
    '',
  ].join('\n');

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'review-many-'));
  mkdirSync(path.join(folder, 'logs/june'), { recursive: true });
  writeFileSync(path.join(folder, 'logs/cool.csv'), logText(90));
  writeFileSync(path.join(folder, 'logs/diary.csv'), 'dear diary,\ntoday we welded\n');
  writeFileSync(path.join(folder, 'logs/june/cool.csv'), logText(95));
  writeFileSync(path.join(folder, 'logs/notes.md'), 'not a log');
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs something while a script is loaded first in every process that is started: `ends` says which message ends it. */
async function whereProcessesEnd<T>(ends: string, run: () => Promise<T>): Promise<T> {
  const script = path.join(folder, 'ends.cjs');
  writeFileSync(
    script,
    `let count = 0; process.on('message', (args) => { count++; if (${ends}) process.kill(process.pid, 'SIGKILL'); });`,
  );
  process.env.NODE_OPTIONS = `--require ${script}`;
  try {
    return await run();
  } finally {
    delete process.env.NODE_OPTIONS;
  }
}

const MATERIAL = ['--alloy', 'A356.0', '--temper', 'T6'];
const review = (...args: string[]) => temperbook(folder, 'review', ...args, ...MATERIAL);
const verdictIn = (file: string) => JSON.parse(readFileSync(path.join(folder, file), 'utf8')).verdict;

describe('temperbook review of many logs', () => {
  it('reviews all of a folder, names the one that fails, and loses none of the others', async () => {
    const { status, stdout, stderr } = await review('logs', '--out', 'all');
    expect(stdout).toMatch(/^logs\/cool\.csv +temper kept +> 99 % +all\/cool-record\.html$/m);
    expect(stdout).toMatch(/^logs\/diary\.csv +not reviewed$/m);
    expect(stdout).toMatch(/^logs\/june\/cool\.csv +temper kept +> 99 % +all\/june\/cool-record\.html$/m);
    expect(stdout).toContain('2 of 3 logs reviewed: 2 temper kept; 1 not reviewed\n');
    expect(stderr).toContain('1 of 3 logs could not be reviewed; the others were, and their records stand');
    expect(stderr).not.toMatch(/^\.$/m);
    expect(stderr).toMatch(/^logs\/diary\.csv: .+/m);
    expect(stderr).not.toMatch(/^ +at /m);
    expect(status).toBe(1);
  });

  it('gives the answer that each log gets alone', async () => {
    expect((await review('logs/cool.csv', 'logs/june/cool.csv', '--out', 'none-left')).status).toBe(1);
    expect((await review('logs/cool.csv', '--out', 'alone')).status).toBe(0);
    expect(verdictIn('all/cool-record.json')).toEqual(verdictIn('alone/cool-record.json'));
  });

  it('names a log that ends its process, and loses none of those before and after it', async () => {
    const logs = ['1', '2', 'killed', '3'].map((name) => `killed/${name}.csv`);
    mkdirSync(path.join(folder, 'killed'));
    for (const log of logs) writeFileSync(path.join(folder, log), logText(90));
    const { status, stdout, stderr } = await whereProcessesEnd(`args.includes('killed/killed.csv')`, () =>
      review(...logs, '--out', 'rest'),
    );
    expect(stdout).toContain('3 of 4 logs reviewed: 3 temper kept; 1 not reviewed\n');
    expect(stderr).toContain('killed/killed.csv: it ended by SIGKILL');
    expect(status).toBe(1);
    for (const name of ['1', '2', '3']) expect(verdictIn(`rest/${name}-record.json`)).toBeDefined();
    expect(existsSync(path.join(folder, 'rest/killed-record.json'))).toBe(false);
  });

  it('tries a log again by itself where its process had judged others before it ended', async () => {
    const { status, stdout } = await whereProcessesEnd('count > 1', () =>
      review('killed', '--out', 'each-alone'),
    );
    expect(stdout).toContain('4 of 4 logs reviewed: 4 temper kept\n');
    expect(status).toBe(0);
  });

  it('refuses what is true of one part only, a log named twice and a folder without logs', async () => {
    mkdirSync(path.join(folder, 'empty'));
    expect((await review('logs', '--out', 'bad', '--job', 'part=HB-07')).stderr).toContain(
      'part=HB-07 is about one part',
    );
    expect((await review('logs', '--out', 'bad', '--reading', 'Hinge brinell 70')).stderr).toContain(
      'about one part',
    );
    expect((await review('logs', 'logs/cool.csv', '--out', 'bad')).stderr).toContain(
      'this log is named twice',
    );
    expect((await review('empty', '--out', 'bad')).stderr).toContain('there is no log in this folder');
    expect(existsSync(path.join(folder, 'bad'))).toBe(false);
  });
});
