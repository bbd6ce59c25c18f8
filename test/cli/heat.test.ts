import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const heat = (...args: string[]) => temperbook(tmpdir(), 'heat', ...args);

describe('temperbook heat', () => {
  it('answers from words: verdict, chance, what is left and what was not said', async () => {
    const { status, stdout } = await heat(
      '390F 1.5h',
      '--alloy',
      'A356-T6',
      '--oven',
      'class 5',
      '--wall',
      '1/2in',
    );
    expect(stdout).toMatch(/^Temper kept/);
    expect(stdout).toMatch(/Count on \d+ more such heat/);
    expect(stdout).toContain('Does a fan move the air?');
    expect(stdout).toContain('AMS 2750');
    expect(status).toBe(0);
  });

  it('weighs a stick, takes a metal that is not known, and writes the page for the coater', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'heat-'));
    const known = ['--oven', 'class 2', '--wall', '12mm', '--fan', 'yes'];
    const told = [
      '390F 20min',
      '--alloy',
      'A356-T6',
      ...known,
      '--stick',
      '400F not melted',
      '--ticket',
      'page.txt',
    ];
    expect((await temperbook(folder, 'heat', ...told)).stdout).toMatch(/stick for 204 °C[\s\S]*page\.txt/);
    expect(readFileSync(path.join(folder, 'page.txt'), 'utf8')).toMatch(/may not be exceeded/);
    expect(await temperbook(folder, 'heat', ...told)).toMatchObject({ status: 2 });
    expect(
      (await heat('390F 20min', '--alloy', 'A356-T6 or A356-T7', '--brinell', '80', ...known)).stdout,
    ).toMatch(/A356\.0-T7 .*%/);
    rmSync(folder, { recursive: true });
  });

  it('reviews a job whose metal is open for every metal it may be, and writes no record of it', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'open-'));
    const said = { job: 'J-9', metal: 'A356-T6 or A356-T7', heats: ['390F 1h'] };
    writeFileSync(path.join(folder, 'job.json'), JSON.stringify(said));
    const { status, stdout, stderr } = await temperbook(folder, 'review', 'job.json', '--out', 'out');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^A356\.0-T6 +50 % +/m);
    expect(stdout).toMatch(/^A356\.0-T7 +50 % +/m);
    expect(stdout).toContain('The word must hold for every metal that weighs more than 5 %.');
    expect(stdout).toContain('No record is written: a record is of one metal.');
    expect(readdirSync(folder)).toEqual(['job.json']);
    rmSync(folder, { recursive: true });
  });

  it('takes points off a paper chart', async () => {
    const points = '0min 70F, 12min 350F, 40min 355F, 55min 150F';
    const { stdout } = await heat(points, '--alloy', 'A356-T6', '--within', '5F', '--between', 'the curve');
    expect(stdout).toMatch(/^Temper kept[\s\S]*4 points written down by hand/);
  });

  it.each([
    [['390F 1h', '--alloy', '6061-T6', '--stick', '400F'], 1, 'This stick cannot be read'],
    [['0min 70F, 9min 350F', '--alloy', '6061-T6'], 2, '--within'],
    [['390 1.5', '--alloy', '6061-T6'], 1, '°F or °C'],
    [['3900F 2h', '--alloy', '6061-T6'], 1, 'No aluminium part'],
    [['390F 1h', '--alloy', '6061'], 1, 'No temper of 6061'],
    [['390F 1h'], 2, '--alloy <metal>'],
    [['--alloy', '6061-T6'], 2, 'the heat is missing'],
    [['390F 1h', '--alloy', '6061-T6', '--fan', 'maybe'], 2, '--fan takes yes or no'],
    [['390F 1h', '--alloy', '6061-T6', '--wall', '12'], 1, 'number with its unit'],
  ])('%j', async (args, code, message) => {
    const { status, stdout, stderr } = await heat(...args);
    expect(stderr).toContain(message);
    expect(stdout).toBe('');
    expect(status).toBe(code);
  });
});
