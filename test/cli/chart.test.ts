import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const demo = path.resolve('data/demo/furnace-chart.csv');
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'chart-'));
});
afterAll(() => rmSync(folder, { recursive: true }));
const chart = (...args: string[]) => temperbook(folder, 'chart', ...args);

describe('temperbook chart', () => {
  it('says what of the schedule the demo meets, and draws it', async () => {
    const { status, stdout, stderr } = await chart(demo, '--schedule', 'A356.0-T6', '--out', 'chart.svg');
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toMatch(
      /^The chart does not meet A356.0 T6 sand casting\. Not met: Ageing: time in the band\./,
    );
    expect(stdout).toMatch(
      /Ageing: time in the band +not met +1 h 51 min without a break; wanted: at least 3 h/,
    );
    expect(stdout).toContain('Picture  chart.svg');
    expect(readFileSync(path.join(folder, 'chart.svg'), 'utf8')).toMatch(/^<svg /);
  });

  it('cannot tell once the load sensors are told to be air', async () => {
    const air = [1, 2, 3, 4].flatMap((k) => [
      '--sensor',
      `${['Load 1 top', 'Load 2 middle', 'Load 3 middle', 'Load 4 bottom'][k - 1]}=air`,
    ]);
    const { stdout } = await chart(demo, '--schedule', 'A356.0-T6', ...air);
    expect(stdout).toMatch(/^Whether the chart meets/);
    expect(stdout).not.toMatch(/ met {2}/);
  });

  it('joins the files of one load, and takes the pause that is stated', async () => {
    const rows = readFileSync(demo, 'utf8').split('\r\n');
    const until = rows.findIndex((row) => row.startsWith('2026-04-03 08:'));
    const from = rows.findIndex((row) => row.startsWith('2026-04-03 20:'));
    const write = (name: string, part: readonly string[]) =>
      writeFileSync(path.join(folder, name), [...rows.slice(0, 3), ...part].join('\r\n'));
    write('solution.csv', rows.slice(3, until));
    write('ageing.csv', rows.slice(from));
    const whole = await chart(demo, '--schedule', 'A356-T6');
    const two = await chart('solution.csv', 'ageing.csv', '--schedule', 'A356-T6');
    expect(two.stderr).toBe('');
    // The same table; below it the notes tell how they were joined.
    expect(two.stdout.split('\n\n').slice(0, 2)).toEqual(whole.stdout.split('\n\n').slice(0, 2));
    expect(two.stdout).toContain('Joined by their clocks: 12 h between solution.csv and ageing.csv.');
    const stated = await chart('solution.csv', 'ageing.csv', '--schedule', 'A356-T6', '--pause', '2h');
    expect(stated.stdout).toContain('Their clocks say otherwise: 12 h');
    expect((await chart('solution.csv', demo, '--schedule', 'A356-T6')).stderr).toContain(
      'cover the same time',
    );
    expect(
      (await chart('solution.csv', 'ageing.csv', '--schedule', 'A356-T6', '--pause', '2')).stderr,
    ).toContain('a number and its unit');
  });

  it('asks in which unit a chart is where nobody sits at a terminal, with the option and both values', async () => {
    const rows = readFileSync(demo, 'utf8').split('\r\n').slice(2).filter(Boolean);
    // The ageing alone: 309 °F may be 309 °C.
    const inF = rows
      .filter((row, k) => k === 0 || row > '2026-04-03 20:')
      .map((row, k) => {
        const [stamp, ...fields] = row.split(',');
        return k === 0
          ? row.replaceAll(' (°C)', '').replaceAll('Load ', 'TC')
          : [stamp, ...fields.map((c) => Number(c) * 1.8 + 32)].join(',');
      });
    writeFileSync(path.join(folder, 'bare.csv'), inF.join('\n'));
    const { status, stderr } = await chart('bare.csv', '--schedule', 'A356-T6');
    expect(status).toBe(1);
    expect(stderr).toMatch(/The word hangs on it.*°F: .*°C: .*option unit/s);
    const said = await chart('bare.csv', '--schedule', 'A356-T6', '--read', '{"unit":"°F"}');
    expect(said.stdout).toMatch(/^The chart does not meet A356.0 T6 sand casting/);
  });

  it('names what is wrong with what it was given', async () => {
    expect(await chart(demo, '--schedule', 'A356.0-T99')).toMatchObject({ status: 1 });
    expect((await chart(demo, '--schedule', 'A356.0-T99')).stderr).toContain('A356.0 T6 sand casting');
    expect((await chart(demo, '--schedule', 'A356-T6', '--sensor', 'Load 9=load')).stderr).toContain(
      '"Load 1 top"',
    );
    expect(await chart(demo)).toMatchObject({ status: 2 });
    expect(await chart(demo, '--schedule', 'A356-T6', '--out', 'chart.png')).toMatchObject({ status: 2 });
  });
});
