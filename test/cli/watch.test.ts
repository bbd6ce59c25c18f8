import { type ChildProcess, spawn } from 'node:child_process';
import {
  appendFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const COMMAND = path.resolve('dist/cli/main.js');
const METAL = ['--alloy', 'A356.0', '--temper', 'T6', '--attached', 'peened hole', '--out'];
const lines = readFileSync('data/demo/mast-foot-two-probes.csv', 'utf8').split(/(?<=\n)/);

let child: ChildProcess | undefined;
afterEach(() => child?.kill('SIGKILL'));

/** A watch of a log in a new folder, what it has said, and how to end it. */
function start(name = 'log.csv') {
  const folder = mkdtempSync(path.join(tmpdir(), 'watch-'));
  const log = path.join(folder, name);
  const said = { text: '' };
  const run = (): void => {
    child = spawn(COMMAND, ['watch', name, ...METAL, 'out'], { cwd: folder });
    for (const stream of [child.stdout!, child.stderr!])
      stream.on('data', (piece) => {
        said.text += piece;
      });
  };
  const until = async (what: RegExp | string): Promise<number> => {
    const startMs = Date.now();
    while (!(typeof what === 'string' ? said.text.includes(what) : what.test(said.text))) {
      if (Date.now() - startMs > 30_000) throw new Error(`"${what}" was not said:\n${said.text}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    return Date.now() - startMs;
  };
  const end = (): Promise<number | null> =>
    new Promise((resolve) => {
      child!.once('close', resolve);
      child!.kill('SIGINT');
    });
  return { folder, log, said, run, until, end };
}

/** The room-temperature head of the log, and where it first passes 230 °C. */
const COLD = 60;
const hot = lines.findIndex((line) => Number(line.split(',')[1]) > 230);

/** Appends a row of the log every 100 ms, as a logger does, from `at` on; `stop` gives the next row. */
function drip(log: string, at: number): { readonly stop: () => number } {
  let next = at;
  const timer = setInterval(() => appendFileSync(log, lines[next++]!), 100);
  return {
    stop: () => {
      clearInterval(timer);
      return next;
    },
  };
}

const verdictOf = (folder: string, file: string) => {
  const { verdict, log } = JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
  return { verdict, sha256: log.sha256 };
};

describe('temperbook watch', () => {
  it('waits for its log, rings at the limit, and ends with the record that review writes', async () => {
    const { folder, log, said, run, until, end } = start();
    run();
    await until('is not there yet');
    writeFileSync(log, lines.slice(0, COLD).join(''));
    const dripping = drip(log, COLD);
    await until('Go on');
    const next = dripping.stop();
    // Half of a line counts for nothing.
    appendFileSync(log, `${lines.slice(next, hot).join('')}${lines[hot]!.slice(0, 9)}`);
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(said.text).not.toContain('At the limit');
    appendFileSync(log, `${lines[hot]!.slice(9)}${lines[hot + 1]!}`);
    await until(/At the limit of 227 °C/);
    expect(said.text).toContain('\x07');
    appendFileSync(log, lines.slice(hot + 2).join(''));
    expect(await end()).toBe(0);
    const { status } = await temperbook(folder, 'review', 'log.csv', ...METAL, 'reviewed');
    expect(status).toBe(0);
    expect(verdictOf(folder, 'out/log-record.json')).toEqual(verdictOf(folder, 'reviewed/log-record.json'));
  });

  it('keeps what it read when the logger begins anew and when its log vanishes, and clears neither', async () => {
    const { folder, log, said, run, until, end } = start();
    writeFileSync(log, lines.slice(0, COLD).join(''));
    run();
    const dripping = drip(log, COLD);
    await until('Go on');
    const first = dripping.stop();
    renameSync(log, `${log}.1`);
    writeFileSync(log, lines.slice(0, COLD).join(''));
    await until('began its file anew 1 time');
    rmSync(log);
    await until('The log is gone');
    expect(await end()).toBe(0);
    expect(readFileSync(path.join(folder, 'out', 'log-watched.csv'), 'utf8')).toBe(
      [...lines.slice(0, first), ...lines.slice(0, COLD)].join(''),
    );
    const record = readdirSync(path.join(folder, 'out')).find((file) => file.endsWith('record.json'))!;
    expect(verdictOf(folder, `out/${record}`).verdict.verdict).not.toBe('kept');
    expect(said.text).toContain('Record');
  });

  it('says at once what is typed wrongly', async () => {
    const { folder } = start();
    expect((await temperbook(folder, 'watch', 'log.csv', ...METAL, 'out', '--port', 'many')).status).toBe(2);
    expect((await temperbook(folder, 'watch')).status).toBe(2);
  });
});
