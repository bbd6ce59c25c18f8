import { type ChildProcess, spawn } from 'node:child_process';
import {
  appendFileSync,
  mkdirSync,
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
import { readRecord } from '../../dist/record';
import { lotCard, lotCardText } from '../../dist/verify';
import { temperbook } from './temperbook';

const COMMAND = path.resolve('dist/cli/main.js');
const METAL = ['--alloy', 'A356.0', '--temper', 'T6', '--attached', 'peened hole', '--out'];
const LOT = JSON.parse(readFileSync('data/demo/hinge-block-coupons.json', 'utf8'));
const lines = readFileSync('data/demo/mast-foot-two-probes.csv', 'utf8').split(/(?<=\n)/);

let child: ChildProcess | undefined;
afterEach(() => child?.kill('SIGKILL'));

/** A watch of a log in a new folder, what it has said, and how to end it. */
function start(what: readonly string[] = ['log.csv', ...METAL, 'out'], name = 'log.csv') {
  const folder = mkdtempSync(path.join(tmpdir(), 'watch-'));
  const log = path.join(folder, name);
  const said = { text: '' };
  const run = (): void => {
    child = spawn(COMMAND, ['watch', ...what], { cwd: folder });
    for (const stream of [child.stdout!, child.stderr!])
      stream.on('data', (piece) => {
        said.text += piece;
      });
  };
  const until = async (what: RegExp | string): Promise<number> => {
    const startMs = Date.now();
    while (!(typeof what === 'string' ? said.text.includes(what) : what.test(said.text))) {
      if (Date.now() - startMs > 90_000) throw new Error(`"${what}" was not said:\n${said.text}`);
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

  it('watches a job: its log, metals, limit and lot, and ends with its record though the logger began anew', async () => {
    const { folder, log, said, run, until, end } = start(['jobs/hb-09.json']);
    mkdirSync(path.join(folder, 'jobs'));
    writeFileSync(
      path.join(folder, 'jobs', 'card.json'),
      lotCardText(lotCard({ ...LOT, coupons: LOT.coupons.slice(0, 1) })),
    );
    const job = {
      job: 'HB-09',
      log: { file: '../log.csv', read: { decimal: '.' } },
      metal: 'A356-T6',
      measuring: { attachment: 'peened hole' },
      probes: { 'TC2 tube 22 mm': { metal: '6061-T6' } },
      limits: { limitC: '300F' },
      lot: { cards: ['card.json'] },
    };
    const write = (name: string, content: object): void =>
      writeFileSync(path.join(folder, 'jobs', name), JSON.stringify(content));
    write('hb-09.json', job);
    run();
    await until('log.csv is not there yet');
    writeFileSync(log, lines.slice(0, COLD).join(''));
    const dripping = drip(log, COLD);
    await until('Go on');
    const first = dripping.stop();
    renameSync(log, `${log}.1`);
    writeFileSync(log, `${lines[0]}${lines.slice(first, hot + 1).join('')}`);
    await until('began its file anew 1 time');
    await until('At the limit of 149 °C');
    // A line of the sheet that is added meanwhile stands in the record.
    write('hb-09.json', { ...job, sheet: { operator: 'bench 2' } });
    expect(await end()).toBe(0);
    expect(said.text).not.toContain('Job     ');
    const data = /Data {4}(.*)/.exec(said.text)![1]!;
    expect(path.dirname(data)).toBe('jobs');
    const record = readRecord(path.join(folder, data));
    expect(record.job).toMatchObject({ job: 'HB-09', operator: 'bench 2' });
    expect(record.verdict.readings?.because.join()).toContain('coupons or chart say of hinge blocks, lot 7');
    expect(record.verdict.channels.map(({ alloy }) => alloy)).toEqual(['A356.0', '6061']);
    write('again.json', { ...job, log: { ...job.log, file: 'log-watched.csv' } });
    expect((await temperbook(folder, 'review', 'jobs/again.json', '--out', 'reviewed')).status).toBe(0);
    const [reviewed] = readdirSync(path.join(folder, 'reviewed')).filter((name) => name.endsWith('.json'));
    expect(verdictOf(folder, data)).toEqual(verdictOf(folder, `reviewed/${reviewed}`));
  });

  it('says at once what is typed wrongly', async () => {
    const { folder } = start();
    writeFileSync(path.join(folder, 'job.json'), JSON.stringify({ log: 'to come.csv', metal: 'A357-T6' }));
    const wrong = await temperbook(folder, 'watch', 'job.json');
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toContain('metal');
    expect(wrong.stderr).not.toContain('to come.csv');
    const beside = await temperbook(folder, 'watch', 'job.json', '--limit', '440F');
    expect([beside.status, beside.stderr]).toEqual([
      2,
      expect.stringContaining('--limit has no place beside a job file'),
    ]);
    expect((await temperbook(folder, 'watch', 'log.csv', ...METAL, 'out', '--port', 'many')).status).toBe(2);
    expect((await temperbook(folder, 'watch')).status).toBe(2);
  });
});
