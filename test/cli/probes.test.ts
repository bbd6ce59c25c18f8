import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'probes-'));
  const rows = Array.from({ length: 241 }, (_, s) => `${s},${s < 60 ? 20 : s < 120 ? 0 : s < 150 ? 40 : 95}`);
  writeFileSync(path.join(folder, 'check.csv'), ['Time (s),TC1 (°C)', ...rows, ''].join('\n'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('temperbook probes', () => {
  it('tells what a check found, and keeps it for the review', async () => {
    const steps = ['--step', 'ice water 80s to 118s', '--step', 'boiling water 180s to 238s at 1500m'];
    const { status, stdout } = await temperbook(
      folder,
      'probes',
      'check.csv',
      ...steps,
      '--out',
      'check.json',
    );
    expect(stdout).toMatch(/TC1 +within its tolerance[\s\S]*boiling water: reads 95/);
    expect(status).toBe(0);
    expect(JSON.parse(readFileSync(path.join(folder, 'check.json'), 'utf8'))).toMatchObject({
      log: 'check.csv',
    });
    expect((await temperbook(folder, 'probes', 'check.json')).stdout).toContain('within its tolerance');
  });

  it.each([
    [['check.csv'], 1, 'No step of the check'],
    [['check.csv', '--step', 'oil 1s to 2s'], 1, 'such as "ice water'],
    [['check.csv', '--step', 'wiggle 1s to 20s', '--type', 'Q'], 1, 'expected one of "B", "E"'],
  ])('%j', async (args, code, message) => {
    const { status, stderr } = await temperbook(folder, 'probes', ...args);
    expect(stderr).toContain(message);
    expect(status).toBe(code);
  });
});

describe('temperbook certificate', () => {
  it('says what may be concluded, what to ask, and what follows if it was so', async () => {
    const certificate = {
      lot: 'HB-07',
      set: '390F',
      time: '20min',
      counted: 'from the door',
      oven: 'class 5',
    };
    writeFileSync(path.join(folder, 'certificate.json'), JSON.stringify(certificate));
    const asked = [
      'certificate',
      'certificate.json',
      '--lot',
      'HB-07',
      '--alloy',
      'A356-T6',
      '--wall',
      '12mm',
    ];
    const { status, stdout } = await temperbook(folder, ...asked);
    expect(stdout).toMatch(
      /set point, not the metal[\s\S]*How hot was the metal[\s\S]*If it was so\n {2}Temper/,
    );
    expect(status).toBe(0);
    expect((await temperbook(folder, 'certificate', 'certificate.json', '--lot', 'HB-08')).stderr).toContain(
      'another lot',
    );
  });
});

describe('temperbook review of a job of words', () => {
  it('writes its record; a job that says nothing of heat names both keys', async () => {
    const heats = [{ heat: '390F 20min', oven: 'class 5', wallMm: 12, sticks: ['425F not melted'] }];
    writeFileSync(path.join(folder, 'job.json'), JSON.stringify({ job: 'J-9', metal: 'A356-T6', heats }));
    const { status, stdout, stderr } = await temperbook(folder, 'review', 'job.json');
    expect(stderr).toBe('');
    expect(stdout).toMatch(/the part[\s\S]*Record {2}j-9-record\.html/);
    expect(status).toBe(0);
    writeFileSync(path.join(folder, 'empty.json'), JSON.stringify({ job: 'J-9', metal: 'A356-T6' }));
    expect((await temperbook(folder, 'review', 'empty.json')).stderr).toMatch(
      /neither log nor heats[\s\S]*"heats"/,
    );
  });
});
