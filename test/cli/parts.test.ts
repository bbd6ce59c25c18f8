import { copyFileSync, existsSync, mkdtempSync, readFileSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { temperbook } from './temperbook';

const folder = mkdtempSync(path.join(tmpdir(), 'parts-'));

beforeAll(async () => {
  copyFileSync('data/demo/mast-foot-two-probes.csv', path.join(folder, 'weld.csv'));
  const { status, stderr } = await temperbook(
    folder,
    ...['review', 'weld.csv', '--alloy', 'A356.0', '--temper', 'T6', '--out', 'records'],
    ...['--job', 'part=HB-09', '--job', 'date=2031-05-14'],
  );
  // How far it has come is told from two seconds on, on a busy machine.
  expect(stderr.replace(/^[\w ]+: \d+ %\n/gm, '')).toBe('');
  expect(status).toBe(0);
});

describe('temperbook parts', () => {
  it('lists a record that review wrote, and draws the page', async () => {
    const { status, stdout } = await temperbook(folder, 'parts', 'records', '--out', 'shelf.html');
    expect(status).toBe(0);
    expect(stdout).toMatch(/2031-05-14 +HB-09 +A356\.0-T6/);
    expect(stdout).toContain('1 part;');
    expect(readFileSync(path.join(folder, 'shelf.html'), 'utf8')).toContain('HB-09');
  });

  it('lists nothing that was not asked for', async () => {
    const { status, stdout } = await temperbook(folder, 'parts', 'records', '--part', 'XX');
    expect([status, stdout]).toEqual([0, '0 of 1 part; 1 other .json file, which is no record.\n']);
  });

  it('says what it cannot take, and what to do', async () => {
    const record = path.join(folder, 'records', 'hb-10-record.json');
    copyFileSync(path.join(folder, 'records', 'hb-09-record.json'), record);
    truncateSync(record, 5000);
    const { status, stdout } = await temperbook(folder, 'parts', 'records');
    expect(status).toBe(0);
    expect(stdout).toContain('Cut short or damaged');
    expect(stdout).toContain('bring them back from a copy');
  });

  it('refuses a folder that is not there and a word that is none', async () => {
    expect((await temperbook(folder, 'parts', 'none')).stderr).toContain('The folder cannot be read');
    expect((await temperbook(folder, 'parts', 'records', '--word', 'fine')).stderr).toContain(
      'This is no verdict',
    );
    expect(existsSync(path.join(folder, 'none'))).toBe(false);
  });
});
