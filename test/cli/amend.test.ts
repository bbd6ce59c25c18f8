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
    expect(read.stdout).toContain('Reading 1: was nothing, is 68 HB at TC1, 75 HB on cold metal');
    // As of a review, the first line says what to do.
    expect(read.stdout).toMatch(/^(Use it|Measure first|Do not use it as it is)/);
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
    expect((await temperbook(folder, 'amend', at, '--reading', 'TCl brinell 78')).stderr).toContain(
      'Did you mean "TC1"?',
    );
    expect((await temperbook(folder, 'amend', at, '--decide', 'acept', '--reason', 'x')).stderr).toContain(
      '--decide takes one of accept, accept with condition,',
    );
    const without = ['--decide', 'accept with condition', '--reason', 'x'];
    expect((await temperbook(folder, 'amend', at, ...without)).stderr).toContain('needs a --condition');
  });

  it('knows a reading by its unit, and says why it tells nothing where no source carries it', async () => {
    const at = json.replace('.json', '.edition-3.json');
    const { stdout } = await temperbook(folder, 'amend', at, '--reading', 'TC1 HRB 40 45');
    expect(stdout).toContain('is 40 HRB at TC1, 45 HRB on cold metal');
    const { because } = JSON.parse(readFileSync(path.join(folder, at.replace('3.json', '4.json')), 'utf8'))
      .verdict.readings;
    expect(because.length).toBeGreaterThan(0);
    for (const line of because) expect(stdout).toContain(line);
  });

  it('says of a file that is no record, or is not there, what it is', async () => {
    expect((await temperbook(folder, 'amend', 'no-record.json', '--sign', 'a=b')).stderr).toContain(
      'There is no such record',
    );
    writeFileSync(path.join(folder, 'job.json'), '{ // a job\n"log": "weld.csv" }');
    expect((await temperbook(folder, 'amend', 'job.json', '--sign', 'a=b')).stderr).toMatch(
      /not a decision record.*…-record\.json/s,
    );
    const whole = readFileSync(path.join(folder, json), 'utf8');
    writeFileSync(path.join(folder, 'cut-record.json'), whole.slice(0, 3000));
    expect((await temperbook(folder, 'amend', 'cut-record.json', '--sign', 'a=b')).stderr).toMatch(
      /cut short or damaged.*from a copy/s,
    );
    rmSync(path.join(folder, 'cut-record.json'));
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
