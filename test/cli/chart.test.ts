import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
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
