import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

describe('temperbook jupyter where Jupyter is not installed', () => {
  it('still registers the kernel for this folder, says how to get Jupyter and ends well', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'jupyter-'));
    const { status, stdout } = spawnSync(process.execPath, [path.resolve('dist/cli/main.js'), 'jupyter'], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, PATH: folder },
    });
    expect(stdout).toContain('Jupyter is not installed here');
    expect(stdout).toContain('apt install jupyter-notebook');
    expect(status).toBe(0);
    const kernel = JSON.parse(
      readFileSync(path.join(folder, '.jupyter/data/kernels/tslab/kernel.json'), 'utf8'),
    );
    expect(kernel.argv.slice(0, 2).every(existsSync)).toBe(true);
    rmSync(folder, { recursive: true });
  });
});
