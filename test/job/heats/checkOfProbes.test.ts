import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
import { checkProbes } from '../../../lib/exposure';
import { checkOfProbes, readJob, reviewJob } from '../../../lib/job';
import { readLog } from '../../../lib/log';

const folder = mkdtempSync(path.join(tmpdir(), 'probes-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, probe: string, seconds: number, at: (s: number) => number): string {
  const rows = Array.from({ length: seconds + 1 }, (_, s) => `${s},${at(s).toFixed(1)}`);
  writeFileSync(path.join(folder, name), [`Time (s),${probe} (°C)`, ...rows, ''].join('\n'));
  return path.join(folder, name);
}
// In boiling water at 1500 m (95.0 °C) the probe reads 90 °C: low, and more so the hotter it gets.
const short = file('check.csv', 'TC1', 240, (s) => (s < 60 ? 20 : s < 120 ? 0 : s < 150 ? 40 : 90));
const weld = file('weld.csv', 'TC1', 600, (s) =>
  s < 60 ? 20 + 3.4 * s : Math.max(20, 224 - 0.45 * (s - 60)),
);
const steps = ['ice water 80s to 118s', 'boiling water 180s to 238s at 1500m'];

describe('a check of the probes before the weld', () => {
  it('is found the same from a job, from a file of its own, and from the library', () => {
    const check = { log: 'check.csv', type: 'K', steps } as const;
    writeFileSync(path.join(folder, 'check.json'), JSON.stringify(check));
    const [found] = checkOfProbes('check.json', folder);
    expect(checkOfProbes(check, folder)).toEqual([found]);
    const parsed = checkProbes(readLog(short).channels, [
      { what: 'ice water', fromS: 80, toS: 118 },
      { what: 'boiling water', fromS: 180, toS: 238, altitudeM: 1500 },
    ]);
    expect(parsed).toEqual([found]);
    expect(found!.readsLowK).toBeCloseTo(5, 0);
  });

  it('enters the doubts of the log, at every door alike', () => {
    const job = { log: weld, metal: 'A356-T6', measuring: { attachment: 'peened hole' } } as const;
    const { verdict } = reviewJob(readJob({ ...job, check: path.join(folder, 'check.json') }));
    const [check] = checkOfProbes('check.json', folder);
    const same = judge(readLog(weld), {
      alloy: 'A356-T6',
      attachment: 'peened hole',
      byChannel: { TC1: { check } },
    });
    expect(verdict.chanceKept).toBe(same.chanceKept);
    expect(verdict.channels[0]!.doubts.map(({ kind }) => kind)).toContain('offset');
    const unchecked = reviewJob(readJob(job)).verdict;
    expect(verdict.channels[0]!.peakC.high).toBeGreaterThan(unchecked.channels[0]!.peakC.high);
  });

  it.each([
    [{ log: 'check.csv', steps: ['ice water 1min'] }, /check: .*ice water/],
    [{ log: 'nowhere.csv', steps }, /check/],
    [{ log: 'check.csv', steps: ['boiling water 180s to 238s'] }, /altitude/],
    [{ steps }, /check/],
  ])('refuses %j', (check, message) =>
    expect(() =>
      readJob({
        log: weld,
        metal: 'A356-T6',
        check: { ...check, ...('log' in check ? { log: path.join(folder, check.log!) } : {}) } as never,
      }),
    ).toThrow(message),
  );

  it('of other probes than those of the log is not passed over in silence', () => {
    const other = file('other.csv', 'T-left', 600, () => 20);
    expect(() =>
      reviewJob(readJob({ log: other, metal: 'A356-T6', check: path.join(folder, 'check.json') })),
    ).toThrow(/none of the probes.*"TC1".*"T-left"/);
  });
});
