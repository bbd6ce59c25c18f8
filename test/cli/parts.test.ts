import { copyFileSync, existsSync, mkdtempSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
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

  it('asks for no copy where two parts have one number', async () => {
    const shelf = path.join(folder, 'numbered');
    const names: Record<string, string> = { 'one.csv': 'Lug', 'other.csv': 'Boss' };
    for (const [log, name] of Object.entries(names)) {
      const rows = Array.from({ length: 60 }, (_, s) => `${s},${20 + s}`);
      writeFileSync(path.join(folder, log), `Time (s),${name} (°C)\n${rows.join('\n')}\n`);
      const said = [
        '--alloy',
        'A356-T6',
        '--job',
        `job=${name}`,
        '--job',
        'partNumber=FM-20',
        '--job',
        'serial=1',
      ];
      await temperbook(folder, 'review', log, ...said, '--out', shelf);
    }
    const listed = await temperbook(folder, 'parts', shelf);
    expect(listed.stdout).toContain('has another record');
    expect(listed.stdout).toContain('2 parts; 1 thing to be looked at');
    const audited = await temperbook(folder, 'audit', shelf);
    expect(audited.stderr).toContain('1 thing wrong');
    for (const { stdout, stderr } of [listed, audited]) expect(stdout + stderr).not.toContain('from a copy');
  });

  it('refuses a folder that is not there and a word that is none', async () => {
    expect((await temperbook(folder, 'parts', 'none')).stderr).toContain('The folder cannot be read');
    expect((await temperbook(folder, 'parts', 'records', '--word', 'fine')).stderr).toContain(
      'This is no verdict',
    );
    expect(existsSync(path.join(folder, 'none'))).toBe(false);
  });
});
