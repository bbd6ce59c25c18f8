import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askJob } from '../../dist/cli/review/askJob';
import { readLog } from '../../dist/log';
import { filesIn } from '../setup/filesIn';
import { temperbook } from './temperbook';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'new-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const inFolder = (...names: string[]): string => path.join(folder, ...names);
/** How far it has come is told from two seconds on, on a busy machine. */
const quiet = (stderr: string): string => stderr.replace(/^[\w ]+: \d+ %\n/gm, '');

describe('temperbook new', () => {
  it('makes a folder whose job runs at once, with nothing left unsaid', async () => {
    const made = await temperbook(folder, 'new', 'mast');
    expect(made).toMatchObject({ status: 0, stderr: '' });
    expect(made.stdout).toContain('Next: temperbook review mast/job.json');
    const { status, stdout, stderr } = await temperbook(folder, 'review', 'mast/job.json');
    expect(quiet(stderr)).toBe('');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^TC4 tube 25 mm +temper kept/m);
    expect(stdout).not.toContain('Nobody said');
    expect(stdout).toContain('Record  mast/j-1-record.html');
    const { job, verdict } = JSON.parse(readFileSync(inFolder('mast/j-1-record.json'), 'utf8'));
    expect(job).toMatchObject({ job: 'J-1', partNumber: 'HB-07', serial: '1', filler: '4043' });
    expect(verdict.channels.map(({ alloy }: { alloy: string }) => alloy)).toEqual([
      'A356.0',
      'A356.0',
      'A356.0',
      '6061',
    ]);
  });

  it('puts nothing into a folder that holds something', async () => {
    mkdirSync(inFolder('full'));
    writeFileSync(inFolder('full', 'weld.csv'), 'mine');
    const { status, stderr } = await temperbook(folder, 'new', 'full');
    expect(status).toBe(1);
    expect(stderr).toMatch(/full: The folder is not empty.*weld\.csv/);
    expect(readdirSync(inFolder('full'))).toEqual(['weld.csv']);
  });
});

describe('temperbook review of a log', () => {
  const said = ['--alloy', 'A356-T6', '--attached', 'cemented', '--probe', 'TC4 tube 25 mm=6061-T6'];
  beforeAll(() => copyFileSync('data/demo/mast-foot-weld.csv', inFolder('weld.csv')));

  it('says what nobody said, and writes the job that says the rest', async () => {
    const { stdout, status } = await temperbook(
      folder,
      'review',
      'weld.csv',
      '--alloy',
      'A356-T6',
      '--out',
      'open',
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(
      /Nobody said\n {2}How were the probes fixed .*\n.*--attached.*measuring\.attachment/,
    );
    expect(stdout).toMatch(/What does "TC4 tube 25 mm" sit on.*not judged, so the part is not cleared/i);
    expect(stdout).not.toMatch(/^TC4 tube 25 mm +(temper|uncertain)/m);
    expect(readFileSync(inFolder('open/weld-job.json'), 'utf8')).toMatch(/^\/\/ Nobody said: How were/);
  });

  const reviewLog = () =>
    temperbook(folder, 'review', 'weld.csv', ...said, '--out', 'said', '--job', 'part=HB-07');

  it('is the same as a review of the job file it writes, to the byte', async () => {
    const byLog = await reviewLog();
    expect(byLog.status).toBe(0);
    const before = readFileSync(inFolder('said/hb-07-record.html'), 'utf8');
    const byJob = await temperbook(folder, 'review', 'said/hb-07-job.json');
    expect(byJob.stdout).toContain('as it stood there already');
    expect(readFileSync(inFolder('said/hb-07-record.html'), 'utf8')).toBe(before);
    expect(filesIn(inFolder('said'))).toEqual(['hb-07-job.json', 'hb-07-record.html', 'hb-07-record.json']);
  });

  it('never writes over a job file', async () => {
    writeFileSync(inFolder('said', 'hb-07-job.json'), '{ "log": "mine.csv" }');
    const again = await reviewLog();
    expect(again.stdout).toMatch(/^Job .*hb-07-job\.json, left as it is$/m);
    expect(readFileSync(inFolder('said', 'hb-07-job.json'), 'utf8')).toBe('{ "log": "mine.csv" }');
  });

  it("takes the shop's defaults that lie beside the log", async () => {
    mkdirSync(inFolder('shop'));
    copyFileSync(inFolder('weld.csv'), inFolder('shop', 'weld.csv'));
    copyFileSync('data/new/shop-defaults.json', inFolder('shop', 'shop-defaults.json'));
    const { stdout } = await temperbook(
      folder,
      'review',
      'shop/weld.csv',
      '--alloy',
      'A356-T6',
      '--out',
      'shop/out',
    );
    expect(stdout).toContain('Shop    shop/shop-defaults.json');
    expect(stdout).not.toContain('Nobody said');
    expect(stdout).toMatch(/^TC4 tube 25 mm +temper kept/m);
  });

  it('refuses options beside a job file, a metal that is not said, and a job with faults, all of them at once', async () => {
    expect(await temperbook(folder, 'review', 'mast/job.json', '--alloy', '6061')).toMatchObject({
      status: 2,
    });
    expect((await temperbook(folder, 'review', 'weld.csv', '--out', 'none')).stderr).toMatch(
      /does not say what metal/,
    );
    writeFileSync(inFolder('bad.json'), '{ "log": "weld.csv", "probs": {}, "metal": "A356-T9" }');
    const { status, stderr } = await temperbook(folder, 'review', 'bad.json');
    expect(status).toBe(1);
    expect(stderr).toMatch(/bad\.json: The job file has 2 problems/);
    expect(stderr).toMatch(/did you mean probes\?/);
    expect(stderr).toMatch(/metal: found "T9"/);
  });
});

describe('the questions on a terminal', () => {
  const log = () => readLog(inFolder('weld.csv'));

  async function answered(...answers: string[]) {
    const input = new PassThrough();
    const output = new PassThrough();
    let asked = '';
    output.on('data', (text) => {
      asked += text;
      // A question ends with this; the next answer comes when it is asked.
      if (/\): $/.test(String(text))) {
        const next = answers.shift();
        setImmediate(() => (next === undefined ? input.end() : input.write(`${next}\n`)));
      }
    });
    const job = await askJob({ log: inFolder('weld.csv') }, log(), input, output);
    return { said: job.said, asked };
  }

  it('ask the fixing first, then the metal, then what a tube is; a number stands for its choice', async () => {
    const { said, asked } = await answered('2', 'A356-T6', '6061-T6');
    expect(asked.indexOf('How were the probes fixed')).toBe(0);
    expect(said).toMatchObject({
      measuring: { attachment: 'peened hole' },
      metal: 'A356-T6',
      probes: { 'TC4 tube 25 mm': { metal: '6061-T6' } },
    });
  });

  it('ask again what cannot be used, and leave unsaid what nobody knows', async () => {
    const { said, asked } = await answered('glue', '', 'A356', 'T6');
    expect(asked).toMatch(/none of the answers.*"glue"/);
    expect(said.measuring).toBeUndefined();
    expect(said.metal).toEqual({ alloy: 'A356', temper: 'T6' });
    // The terminal ended there.
    expect(said.probes).toBeUndefined();
  });
});
