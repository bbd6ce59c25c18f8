import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeRecord } from '../../lib/record';
import { sampleRecord } from '../record/samples';
import { temperbook } from './temperbook';

let folder: string;
let json: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'amend-'));
  json = path.basename(writeRecord(sampleRecord(), folder).json);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('temperbook amend and audit', () => {
  it('adds a reading and a decision as editions that audit finds whole', async () => {
    const read = await temperbook(folder, 'amend', json, '--reading', 'TC1 brinell 68 75');
    expect(read.stderr).toBe('');
    expect(read.stdout).toContain('Reading 1: was nothing, is brinell 68 at TC1, 75 on cold metal');
    const second = json.replace('.json', '.edition-2.json');
    const decided = await temperbook(
      folder,
      'amend',
      second,
      '--decide',
      'reject',
      '--reason',
      'Soft beside TC1.',
    );
    expect(decided.stdout).toMatch(/Edition 3\n.*Decision: was accept with condition, is reject/s);
    const audit = await temperbook(folder, 'audit', '.');
    expect(audit).toMatchObject({ status: 0, stderr: '' });
    expect(audit.stdout).toMatch(/^1 record, 3 editions: whole/);
  });

  it('refuses a reading that cannot be, one without a probe, and a decision without a reason', async () => {
    const at = json.replace('.json', '.edition-3.json');
    expect((await temperbook(folder, 'amend', at, '--reading', 'TC1 brinell 780')).stderr).toMatch(/780 HB/);
    expect((await temperbook(folder, 'amend', at, '--reading', 'TC9 brinell 78')).stderr).toMatch(
      /"TC9".*"TC1"/s,
    );
    expect(await temperbook(folder, 'amend', at, '--reading', '78')).toMatchObject({ status: 2 });
    expect((await temperbook(folder, 'amend', at, '--decide', 'accept')).stderr).toMatch(/--reason/);
  });

  it('names what was changed by hand, with exit code 1', async () => {
    const file = path.join(folder, json);
    writeFileSync(file, readFileSync(file, 'utf8').replace('AC TIG', 'DC TIG'));
    const audit = await temperbook(folder, 'audit', '.');
    expect(audit.status).toBe(1);
    expect(audit.stdout).toContain('Changed after it was written: job.');
  });
});

describe('two parts with one number', () => {
  let shelf: string;
  beforeAll(() => {
    shelf = mkdtempSync(path.join(tmpdir(), 'numbers-'));
  });
  afterAll(() => rmSync(shelf, { recursive: true }));

  it('are reported by audit: one serial twice, or one number with two names', async () => {
    const keep = (name: string, job: Record<string, string>) =>
      writeRecord(sampleRecord({ job: { partNumber: 'HB-07', ...job } }), shelf, name);
    keep('a-record', { part: 'Hinge block', serial: '1' });
    keep('b-record', { part: 'Hinge block', serial: '2' });
    expect(await temperbook(shelf, 'audit', '.')).toMatchObject({ status: 0 });
    keep('c-record', { part: 'Hinge block', serial: '2' });
    keep('d-record', { part: 'Mast foot', serial: '4' });
    const { status, stdout } = await temperbook(shelf, 'audit', '.');
    expect(status).toBe(1);
    expect(stdout).toMatch(/c-record\.json\n {2}Part HB-07, serial 2, has another record: .*b-record\.json/);
    expect(stdout).toMatch(/d-record\.json\n {2}Part number HB-07 is "Mast foot" here and "Hinge block"/);
  });

  it('an earlier form of record in the way is left as it is, and the message says what to do', async () => {
    const old = path.join(shelf, 'e-record.json');
    writeFileSync(old, '{ "form": "temperbook decision record 1" }');
    const told = /earlier form, which this version cannot add to.*left as it is.*folder of their own/s;
    expect(() => writeRecord(sampleRecord(), shelf, 'e-record')).toThrow(told);
    expect(readFileSync(old, 'utf8')).toBe('{ "form": "temperbook decision record 1" }');
    expect((await temperbook(shelf, 'audit', '.')).stdout).toMatch(told);
  });
});
