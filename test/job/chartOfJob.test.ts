import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ChartCheck, checkChart, loadSchedule } from '../../lib/heattreat';
import {
  chartOfJob,
  type JobFile,
  jobOptions,
  readJob,
  reviewJob,
  type SaidChart,
  writeJobFile,
} from '../../lib/job';
import { readLog } from '../../lib/log';

const DEMO = path.resolve('data/demo/furnace-chart.csv');
const T6 = 'A356.0 T6 sand casting';
let folder: string;
let rows: readonly string[];
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'chart-job-'));
  rows = readFileSync(DEMO, 'utf8').split('\r\n').filter(Boolean);
  const head = rows.slice(0, 3);
  const cut = (from: number, to: number) => [...head, ...rows.slice(from, to), ''].join('\r\n');
  // The solution chart ends on the bench; the ageing chart begins before its oven is switched on.
  const noon = (stamp: string) => rows.findIndex((row) => row.startsWith(stamp));
  writeFileSync(path.join(folder, 'solution.csv'), cut(3, noon('2026-04-03 08:')));
  writeFileSync(path.join(folder, 'ageing.csv'), cut(noon('2026-04-03 20:'), rows.length));
});
afterAll(() => rmSync(folder, { recursive: true }));

const job = (chart: SaidChart, over: Partial<JobFile> = {}): JobFile => ({
  metal: 'A356-T6',
  lot: { chart },
  ...over,
});
const inFolder = (name: string): string => path.join(folder, name);
const checkOf = (said: JobFile) => chartOfJob(readJob(said));

describe('the furnace chart of a job', () => {
  it('is checked as checkChart checks it, against the schedule of its metal unless it names one', () => {
    const alone = checkChart(readLog(DEMO), T6, { thicknessMm: 25 });
    expect(checkOf(job({ file: DEMO, schedule: T6, thicknessMm: 25 }))).toEqual(alone);
    expect(checkOf(job(DEMO)).requirements).toEqual(checkChart(readLog(DEMO), 'A356.0 T6').requirements);
    expect(chartOfJob(readJob('data/demo/furnace-job.json'))).toEqual(alone);
  });

  it('takes the charts that follow, a schedule of your own and the places of sensors, from the folder of the job', () => {
    mkdirSync(inFolder('jobs'), { recursive: true });
    const { name: _, ...rest } = loadSchedule(T6);
    writeFileSync(inFolder('jobs/own.json'), JSON.stringify({ name: 'our own T6', ...rest }));
    const said = {
      file: '../solution.csv',
      schedule: 'own.json',
      sensors: { 'Load 4 bottom': 'left out' as const },
      next: ['../ageing.csv'],
    };
    writeFileSync(inFolder('jobs/job.json'), JSON.stringify(job(said)));
    const check = chartOfJob(readJob(inFolder('jobs/job.json')));
    expect(check.schedule.name).toBe('our own T6');
    expect(check.sensors.find(({ name }) => name === 'Load 4 bottom')!.role).toBe('left out');
    const files = ['solution.csv', 'ageing.csv'].map((name) => readLog(inFolder(name)));
    expect(check.requirements).toEqual(checkChart(files, T6, { sensors: said.sensors }).requirements);
    expect(check.notes.join('\n')).toContain('Joined by their clocks');
    // Written down elsewhere it says the same.
    writeJobFile(inFolder('moved.json'), job(said), inFolder('jobs'));
    expect(chartOfJob(readJob(inFolder('moved.json')))).toEqual(check);
  });

  it('in two files weighs the members as in one', () => {
    const names = { channels: [{ name: 'the part' }] };
    const heats = { heats: ['200C 20min'], job: 'J-1' };
    const two = jobOptions(
      readJob(job({ file: inFolder('solution.csv'), next: [inFolder('ageing.csv')] }, heats)),
      names,
    );
    const one = jobOptions(readJob(job(DEMO, heats)), names);
    const [a, b] = [two.lots![0]!.because.join(), one.lots![0]!.because.join()];
    expect(a).toBe(b);
  });

  it('is a job by itself, of which no part can be reviewed', () => {
    const alone = readJob(job(DEMO));
    expect(() => reviewJob(alone)).toThrow(/says no heat of its part.*the furnace chart of its lot alone/s);
    expect(() => chartOfJob(readJob({ metal: 'A356-T6', log: DEMO }))).toThrow(
      /no furnace chart.*lot\.chart/s,
    );
    // The kit has no schedule that makes this temper.
    expect(() => checkOf(job(DEMO, { metal: 'A356-T7' }))).toThrow(
      /column "lot\.chart".*found: A356-T7.*lot\.chart\.schedule/is,
    );
  });

  it.each<[SaidChart, RegExp]>([
    [{ file: DEMO, next: ['none.csv'] }, /lot\.chart\.next\[0\]: found "none\.csv", which is not there/],
    [{ file: DEMO, schedule: 'A356.0 T99' }, /lot\.chart\.schedule: found "A356\.0 T99"/],
    [
      { file: DEMO, next: [DEMO, { file: DEMO, pauseH: 2 }] },
      /lot\.chart\.next: found 1 of 2 .*said of some of them only/,
    ],
    [{ file: DEMO, sensors: { TC1: 'oven' as 'air' } }, /lot\.chart\.sensors\.TC1: found "oven"/],
  ])('is refused with the place of what is wrong: %j', (chart, told) => {
    expect(() => readJob(job(chart))).toThrow(told);
  });
});

describe('a chart that may be meant in several ways', () => {
  /** The demo's ageing in °F, and nothing in the file that says so: 309 °F may be 309 °C. */
  const bare = (name: string): string => {
    const ageing = rows.slice(3).filter((row) => row > '2026-04-03 20:');
    const numbers = ageing.map((row) => {
      const [stamp, ...fields] = row.split(',');
      return [stamp, ...fields.map((c) => (Number(c) * 1.8 + 32).toFixed(1))].join(',');
    });
    const file = inFolder(name);
    writeFileSync(
      file,
      [rows[2]!.replaceAll(' (°C)', '').replaceAll('Load ', 'TC'), ...numbers, ''].join('\n'),
    );
    return file;
  };

  it('is refused where the answers hang on it, with the option and both values', () => {
    const file = bare('bare-f.csv');
    expect(readLog(file).openReadings.map(({ option }) => option)).toEqual(['unit']);
    const told = () => checkOf(job(file));
    expect(told).toThrow(/The word hangs on it/);
    expect(told).toThrow(/°C: Whether the chart meets .*cannot be told/);
    expect(told).toThrow(/°F: The chart does not meet .*Not met: Ageing: time in the band/);
    expect(told).toThrow(
      /option unit, as reading options \{"unit":\{.*"°F".*for °F, or \{"unit":\{.*"°C".*for °C/,
    );
    // The unit alone says nothing of where TC1 to TC4 sit.
    const sensors = Object.fromEntries(
      readLog(file).channels.flatMap(({ name }) => (/^TC/.test(name) ? [[name, 'load' as const]] : [])),
    );
    const said = checkOf(job({ file, read: { unit: '°F' }, sensors }));
    const byLoad = (check: ChartCheck) =>
      check.requirements.filter(({ name }) => !name.includes('furnace')).map(({ verdict }) => verdict);
    expect(byLoad(said)).toEqual(byLoad(checkOf(job(inFolder('ageing.csv')))));
  });

  it('is taken for the likeliest where every way says the same, and the note says so', () => {
    // Nothing of a load: neither in °C nor in °F can anything be told.
    const file = inFolder('air.csv');
    const air = rows.slice(3, 30).map((row) => `${row.split(',')[0]},${40 + Number(row.split(',')[5])}`);
    writeFileSync(file, ['Clock,Zone 1 air', ...air, ''].join('\n'));
    expect(readLog(file).openReadings.map(({ option }) => option)).toEqual(['unit']);
    const check = checkOf(job(file));
    expect(check.verdict).toBe('cannot tell');
    expect(check.notes.join('\n')).toMatch(/It is read as °[CF]; read as °[CF] the word is the same/);
  });
});
