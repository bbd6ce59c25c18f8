import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'lot-'));
  copyFileSync('data/demo/hinge-block-coupons.json', path.join(folder, 'coupons.json'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('temperbook lot', () => {
  it('weighs the coupons, shows expected against read, and writes card and picture', async () => {
    const { status, stdout } = await temperbook(folder, 'lot', 'coupons.json', '--out', 'lot-7.json');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^hinge blocks, lot 7, A356\.0-T6: \d+ of 4000 plausible metals are left\.$/m);
    expect(stdout).toMatch(/^Coupon +Read +Expected before any coupon +By all coupons together$/m);
    expect(stdout).toContain('trapped water turns to steam explosively');
    expect(JSON.parse(readFileSync(path.join(folder, 'lot-7.json'), 'utf8')).membersHash).toMatch(
      /^[0-9a-f]{16}$/,
    );
    expect(existsSync(path.join(folder, 'lot-7.svg'))).toBe(true);
  });

  it('takes a furnace chart, with coupons or without, and a review counts it as the job with that chart', async () => {
    const lot = { name: 'lot 9', alloy: 'A356.0', temper: 'T6', chart: { file: 'furnace.csv' } };
    copyFileSync('data/demo/furnace-chart.csv', path.join(folder, 'furnace.csv'));
    writeFileSync(path.join(folder, 'lot-9.json'), JSON.stringify(lot));
    const { status, stdout, stderr } = await temperbook(folder, 'lot', 'lot-9.json', '--out', 'card-9.json');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^lot 9, A356\.0-T6: \d+ of 4000 plausible metals are left\.$/m);
    expect(stdout).toContain('The chart does not meet A356.0 T6 sand casting');
    expect(stdout).toMatch(/By its chart this lot yields at about \d+ MPa before the heat/);
    expect(stdout).not.toContain('salt bath');
    // A part reviewed with the card, and with the chart in its job.
    const job = { job: 'J-9', metal: 'A356-T6', heats: ['480F 40min'] };
    const lots = [{ cards: ['card-9.json'] }, { name: 'lot 9', chart: 'furnace.csv' }];
    const said: string[] = [];
    for (const [k, one] of lots.entries()) {
      writeFileSync(path.join(folder, `job-${k}.json`), JSON.stringify({ ...job, lot: one }));
      const ran = await temperbook(folder, 'review', `job-${k}.json`, '--out', `out-${k}`);
      expect(ran.stderr).toBe('');
      said.push(ran.stdout.split('What to do now')[0]!);
    }
    expect(said[0]).toBe(said[1]);
    writeFileSync(
      path.join(folder, 'twice.json'),
      JSON.stringify({ ...job, lot: { chart: 'furnace.csv', cards: ['card-9.json'] } }),
    );
    expect((await temperbook(folder, 'review', 'twice.json', '--out', 'o')).stderr).toContain(
      'counted twice',
    );
    // Weighed again from the card it is the same; after a new fit the card's chart is not believed.
    expect((await temperbook(folder, 'lot', 'card-9.json')).stdout).toBe(
      stdout.slice(0, stdout.indexOf('\nCard')),
    );
    const card = JSON.parse(readFileSync(path.join(folder, 'card-9.json'), 'utf8'));
    writeFileSync(
      path.join(folder, 'old.json'),
      JSON.stringify({ ...card, membersHash: '0000000000000000' }),
    );
    expect((await temperbook(folder, 'lot', 'old.json')).stderr).toContain('other plausible metals');
  });

  it('never writes over another card, and says what is wrong with a coupon', async () => {
    writeFileSync(path.join(folder, 'taken.json'), '{}');
    const taken = await temperbook(folder, 'lot', 'coupons.json', '--out', 'taken.json');
    expect(taken.status).toBe(1);
    expect(taken.stderr).toContain('Another lot card stands there');
    expect(readFileSync(path.join(folder, 'taken.json'), 'utf8')).toBe('{}');
    const coupons = JSON.parse(readFileSync(path.join(folder, 'coupons.json'), 'utf8'));
    coupons.coupons[0].after = 780;
    writeFileSync(path.join(folder, 'wrong.json'), JSON.stringify(coupons));
    const wrong = await temperbook(folder, 'lot', 'wrong.json');
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toMatch(/The tensile reading of the coupon "C1" after the heat/);
  });
});
