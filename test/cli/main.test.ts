import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const COMMAND = path.resolve('dist/cli/main.js');

describe('temperbook … | head', () => {
  it('does its work and ends quietly when nobody reads its output any more', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'main-'));
    for (const args of [['--help'], ['new', 'shop']]) {
      const child = spawn(COMMAND, args, { cwd: folder });
      child.stdout.destroy();
      let said = '';
      child.stderr.on('data', (text) => {
        said += text;
      });
      const code = await new Promise((resolve) => child.once('close', resolve));
      expect([code, said]).toEqual([0, '']);
    }
    expect(existsSync(path.join(folder, 'shop', 'job.json'))).toBe(true);
  });
});
