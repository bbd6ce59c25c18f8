import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import demo from '../../data/demo/mast-foot-size.json';
import { temperbook } from './temperbook';

const folder = () => mkdtempSync(path.join(tmpdir(), 'size-'));
const demoFile = path.resolve('data/demo/mast-foot-size.json');

describe('temperbook size', () => {
  it('says what the section needs and draws it, once', async () => {
    const place = folder();
    const { status, stdout } = await temperbook(place, 'size', demoFile, '--out', 'out');
    expect(stdout).toMatch(/A factor of 4 on yield needs at least 4\.97 mm; of the stock, 5 mm/);
    expect(stdout).toMatch(/From memory, not read/);
    expect(stdout).toMatch(/Fatigue is not checked/);
    expect(status).toBe(0);
    expect(readdirSync(path.join(place, 'out')).sort()).toEqual(['factor.svg', 'section.svg']);
    const again = await temperbook(place, 'size', demoFile, '--out', 'out');
    expect(again.status).toBe(1);
    expect(again.stderr).toContain('picture of another size stands there');
  });
  it('says that no code answers for a welded casting, and what to test', async () => {
    const place = folder();
    const { form: _, ...section } = demo.section;
    const cast = {
      ...demo,
      section: { ...section, castBy: 'sand' },
      metal: { ...demo.metal, alloy: 'A356.0' },
    };
    writeFileSync(path.join(place, 'cast.json'), JSON.stringify(cast));
    const { status, stdout } = await temperbook(place, 'size', 'cast.json');
    expect(stdout).toMatch(/no code here answers this[\s\S]*Break welded coupons/);
    expect(status).toBe(0);
  });
  it('refuses a file without units by name', async () => {
    const place = folder();
    writeFileSync(path.join(place, 'bare.json'), JSON.stringify({ ...demo, loads: [{ axial: 2 }] }));
    const { status, stderr } = await temperbook(place, 'size', 'bare.json');
    expect(stderr).toMatch(/loads\[0\]\.axial needs a number with its unit/);
    expect(status).toBe(1);
  });
});
