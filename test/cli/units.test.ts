import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const folder = mkdtempSync(path.join(tmpdir(), 'units-'));
const size = path.resolve('data/demo/mast-foot-size.json');

describe('--units us', () => {
  it('shows in, ksi, lbf and ft·lb with mm, MPa and kN beside them, once, in tables as in sentences', async () => {
    const { status, stdout } = await temperbook(folder, 'size', size, '--units', 'us', '--out', 'out');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^stock +0\.20 in \(5 mm\) /m);
    expect(stdout).toMatch(/\d ksi \(\d+ MPa\) +\d+ lbf \(\d+\.\d kN\) +\d+ ft·lb \(\d\.\d+ kN m\)/);
    expect(stdout).not.toMatch(/\([^()]*\([^()]*mm|in \([^()]*in,/);
    expect(readFileSync(path.join(folder, 'out/factor.svg'), 'utf8')).toContain('Thickness, in');
  });

  it('gives the same numbers as metric output does', async () => {
    const metric = (await temperbook(folder, 'size', size)).stdout;
    const us = (await temperbook(folder, 'size', size, '--units=us')).stdout;
    expect((await temperbook(folder, 'size', size, '--units', 'metric')).stdout).toBe(metric);
    expect(us).not.toBe(metric);
    for (const kept of ['3.18', '4.82', '49.4 kN', '92 MPa', '(5 mm)']) expect(us).toContain(kept);
  });

  it('refuses units it does not know, and commands that have none', async () => {
    expect((await temperbook(folder, 'size', size, '--units', 'imperial')).stderr).toContain('us or metric');
    expect((await temperbook(folder, 'new', 'x', '--units', 'us')).stderr).toContain('has no place here');
  });
});
