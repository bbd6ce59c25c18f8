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
