import { copyFileSync, mkdtempSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const folder = mkdtempSync(path.join(tmpdir(), 'compare-'));
copyFileSync('data/demo/mast-foot-two-probes.csv', path.join(folder, 'weld.csv'));
copyFileSync('data/demo/mast-foot-two-probes-plan.json', path.join(folder, 'plan.json'));
// A probe whose name says tube is not judged as the block is: its metal is said.
const METAL = ['--alloy', 'A356-T6', '--probe', 'TC2 tube 22 mm=6061-T6'];

describe('temperbook compare', () => {
  it('sets a plan beside its log, and a log beside the records of a shelf', async () => {
    const planned = await temperbook(
      folder,
      'compare',
      'plan.json',
      'weld.csv',
      ...METAL,
      '--out',
      'page.html',
    );
    expect(planned.stderr).toBe('');
    expect(planned.stdout).toMatch(/TC2 tube 22 mm +weld +6061-T6/);
    expect(readFileSync(path.join(folder, 'page.html'), 'utf8')).toContain('plan beside weld');
    await temperbook(folder, 'review', 'weld.csv', ...METAL, '--out', 'records');
    const { stdout } = await temperbook(folder, 'compare', 'weld.csv', '--shelf', 'records', ...METAL);
    expect(stdout).toMatch(/weld-record +A356\.0-T6 .* \d+ %/);
  });

  it('takes of a shelf what was measured at the same places, and says so where nothing was', async () => {
    const shelf = path.join(folder, 'mixed');
    await temperbook(folder, 'review', 'weld.csv', ...METAL, '--out', shelf);
    const text = readFileSync(path.join(folder, 'weld.csv'), 'utf8');
    writeFileSync(
      path.join(folder, 'other.csv'),
      text.replace('TC1 lip 14 mm', 'Boss').replace(/TC2 tube/, 'Far tube'),
    );
    const OTHER = ['--alloy', 'A356-T6', '--probe', 'Far tube 22 mm=6061-T6'];
    await temperbook(folder, 'review', 'other.csv', ...OTHER, '--out', shelf);
    const { stdout } = await temperbook(folder, 'compare', 'weld.csv', '--shelf', shelf, ...METAL);
    expect(stdout).toMatch(/^1 of the shelf share no place with weld/);
    expect(stdout).not.toContain('Not compared');
    expect(stdout).toMatch(/weld-record +A356/);
    await temperbook(folder, 'review', 'weld.csv', ...METAL, '--out', 'alone');
    const none = await temperbook(folder, 'compare', 'other.csv', '--shelf', 'alone', ...OTHER);
    expect(none.status).toBe(1);
    expect(none.stderr).toMatch(/No part on the shelf was measured where other was.*"Boss"/);
  });

  it('tells two welds of one name apart, and names the log whose metal nobody said', async () => {
    const twice = await temperbook(folder, 'compare', 'weld.csv', 'weld.csv', ...METAL);
    expect(twice.stdout).toMatch(/weld \(2\) +A356/);
    const unsaid = await temperbook(folder, 'compare', 'weld.csv', 'weld.csv');
    expect(unsaid.stderr).toMatch(/weld\.csv: The job does not say what metal.*--alloy A356-T6/);
  });

  it('takes a job file with its comments, and says of a record of an earlier form what it is', async () => {
    const job = {
      job: 'J-7',
      log: 'weld.csv',
      metal: 'A356-T6',
      probes: { 'TC2 tube 22 mm': { metal: '6061-T6' } },
    };
    writeFileSync(path.join(folder, 'job.json'), `// of the mast foot\n${JSON.stringify(job)}`);
    const { stdout, stderr } = await temperbook(folder, 'compare', 'job.json', 'weld.csv', ...METAL);
    expect(stderr).toBe('');
    expect(stdout).toMatch(/Chance that J-7 kept more/);
    expect(stdout).toMatch(/weld +A356\.0-T6 .* 50 %/);
    writeFileSync(path.join(folder, 'old.json'), '{ "form": "temperbook decision record 2" }');
    const old = await temperbook(folder, 'compare', 'weld.csv', 'old.json', ...METAL);
    expect(old).toMatchObject({ status: 1 });
    expect(old.stderr).toContain('of an earlier form');
  });

  it('says what is missing or damaged', async () => {
    expect((await temperbook(folder, 'compare', 'weld.csv')).status).toBe(2);
    expect(
      (await temperbook(folder, 'compare', 'weld.csv', 'weld.csv', '--last', '0', '--shelf', '.')).status,
    ).toBe(2);
    const record = path.join(folder, 'cut.json');
    writeFileSync(record, readFileSync(path.join(folder, 'plan.json')));
    truncateSync(record, 100);
    const { status, stderr } = await temperbook(folder, 'compare', 'weld.csv', 'cut.json', ...METAL);
    expect(status).toBe(1);
    expect(stderr).toContain('cut short');
  });
});
