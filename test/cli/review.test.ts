import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { unwrapped } from '../setup/unwrapped';
import { temperbook } from './temperbook';

let folder: string;

/** Ten minutes on one probe: up to the peak in two minutes, and down again; the other stays cool. */
function logText(peakC: number): string {
  const rows = Array.from({ length: 601 }, (_, s) => {
    const share = s < 120 ? s / 120 : Math.max(0, 1 - (s - 120) / 480);
    return `${s},${(20 + (peakC - 20) * share).toFixed(1)},${(20 + 60 * share).toFixed(1)}`;
  });
  return ['Time (s),Hinge (°C),Lug (°C)', ...rows, ''].join('\n');
}

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'review-'));
  writeFileSync(path.join(folder, 'cool.csv'), logText(120));
  writeFileSync(path.join(folder, 'hot.csv'), logText(540));
  writeFileSync(path.join(folder, 'notes.csv'), 'dear diary,\ntoday we welded\n');
});
afterAll(() => rmSync(folder, { recursive: true }));

const review = (...args: string[]) => temperbook(folder, 'review', ...args);
const MATERIAL = ['--alloy', 'A356.0', '--temper', 'T6'];

describe('temperbook review', () => {
  it('prints the verdict as a short table and writes the record', async () => {
    const { status, stdout, stderr } = await review(
      'cool.csv',
      ...MATERIAL,
      '--out',
      'records',
      '--job',
      'part=HB-07',
    );
    // How far it has come is told from two seconds on, on a busy machine.
    expect(stderr.replace(/^[\w ]+: \d+ %\n/gm, '')).toBe('');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Use it\n/);
    expect(stdout).toMatch(
      /^Probe +Verdict +Yield kept +Ultimate kept +Chance it is enough +Peak +Above the limit$/m,
    );
    expect(stdout).toMatch(/^Hinge +temper kept .*120 °C \(248 °F\) +never above/m);
    expect(stdout).toContain('Record  records/hb-07-record.html\nData    records/hb-07-record.json\n');
    expect(readFileSync(path.join(folder, 'records/hb-07-record.html'), 'utf8')).toContain('HB-07');
    const { job, verdict } = JSON.parse(readFileSync(path.join(folder, 'records/hb-07-record.json'), 'utf8'));
    expect(job).toEqual({ part: 'HB-07' });
    expect(verdict).toMatchObject({ alloy: 'A356.0', temper: 'T6', allowanceFraction: 0.1, verdict: 'kept' });
  });

  it('finds a temper lost, judged by the loss and the limit that are given', async () => {
    const { stdout } = await review(
      'hot.csv',
      ...MATERIAL,
      '--out',
      'hot',
      '--loss',
      '5 %',
      '--limit',
      '400F',
    );
    expect(stdout).toMatch(/^Do not use it as it is\nHinge decides\./);
    expect(stdout).toMatch(/^Ways to go on at Hinge$/m);
    expect(stdout).toMatch(/^Hinge +temper lost .*above 204 °C \(400 °F\)/m);
    const { verdict } = JSON.parse(readFileSync(path.join(folder, 'hot/hot-record.json'), 'utf8'));
    expect(verdict.allowanceFraction).toBeCloseTo(0.05, 12);
  });

  it('weighs the verdict by a bench reading, and names a kind there is not', async () => {
    const bare = await review('hot.csv', ...MATERIAL, '--out', 'bench');
    const read = await review('hot.csv', ...MATERIAL, '--out', 'bench', '--reading', 'Hinge brinell 79 80');
    expect(read.status).toBe(0);
    expect(read.stdout).toContain('Hinge: (HB − 45)/(HB₀ − 45) follows the share of the yield kept');
    expect(read.stdout).not.toBe(bare.stdout);
    const wrong = await review('hot.csv', ...MATERIAL, '--out', 'bench', '--reading', 'Hinge shore 79 80');
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toMatch(/readings\[0\]\.kind: found "shore", expected one of "brinell"/);
  });

  it('does not put the record of one log in the place of another', async () => {
    const into = ['--out', 'same', '--job', 'part=HB-07'];
    expect((await review('cool.csv', ...MATERIAL, ...into)).status).toBe(0);
    expect((await review('cool.csv', ...MATERIAL, ...into)).status).toBe(0);
    const before = readFileSync(path.join(folder, 'same/hb-07-record.html'), 'utf8');
    const { status, stderr } = await review('hot.csv', ...MATERIAL, ...into);
    expect(status).not.toBe(0);
    expect(stderr).toMatch(/record of another log/);
    expect(readFileSync(path.join(folder, 'same/hb-07-record.html'), 'utf8')).toBe(before);
  });

  it('judges a probe by what it sits on', async () => {
    await review(
      'cool.csv',
      ...MATERIAL,
      '--out',
      'two',
      '--probe',
      'Lug=6061 T6',
      '--attached',
      'peened hole',
    );
    const text = readFileSync(path.join(folder, 'two/cool-record.json'), 'utf8');
    expect(text).toContain('6061');
    expect(text).toContain('peened hole');
  });

  it('refuses a file whose word hangs on how it is meant, and takes it once that is said', async () => {
    // Rows of a second, or of a minute.
    writeFileSync(path.join(folder, 'bare.csv'), logText(235).replace('Time (s)', 'Time'));
    const refused = await review('bare.csv', ...MATERIAL, '--out', 'bare');
    expect(refused.status).toBe(1);
    expect(refused.stderr).toMatch(
      /bare\.csv: .*seconds \(10 min long\): uncertain, check it \(temper kept at Lug\); minutes \(10 h long\).*option clock\.format/s,
    );
    expect(existsSync(path.join(folder, 'bare'))).toBe(false);
    const [, said] = /as reading options (\{.*?\}\}) for seconds/.exec(refused.stderr)!;
    expect((await review('bare.csv', ...MATERIAL, '--out', 'bare', '--read', said!)).status).toBe(0);
  });

  it('notes a reading that is open and makes no difference', async () => {
    writeFileSync(
      path.join(folder, 'unitless.csv'),
      logText(35)
        .replace(/ \(°C\)/g, '')
        .replace(/,(\d+)/g, (_, n) => `,${Number(n) + 19}`),
    );
    const { status, stdout } = await review('unitless.csv', ...MATERIAL, '--out', 'unitless');
    expect(status).toBe(0);
    expect(stdout).toContain('read as °F the word is the same.');
    const record = readFileSync(path.join(folder, 'unitless/unitless-record.json'), 'utf8');
    expect(record).toContain('read as °F the word is the same.');
  });

  it('tells on the terminal and in the first screen which probe hides heat, when, and what to do', async () => {
    writeFileSync(path.join(folder, 'gap.csv'), logText(60).replace(/^(2\d\d),.*$/gm, '$1,,'));
    const { stdout } = await review('gap.csv', ...MATERIAL, '--out', 'gap');
    const told =
      /Heat may be hidden\nHinge, 3\.3 min to 5 min: (The probe has no trusted reading for .*: measure there\.)\n/.exec(
        stdout,
      );
    expect(told).not.toBeNull();
    const page = unwrapped(readFileSync(path.join(folder, 'gap/gap-record.html'), 'utf8'));
    const first = page.slice(page.indexOf('<body'), page.indexOf('</section>'));
    expect(first).toContain('Heat this record may hide');
    expect(first).toContain('3.3 min to 5 min');
    expect(first).toContain(told![1]);
  });

  it('writes the same record every time', async () => {
    const files: string[] = [];
    for (const out of ['first', 'second']) {
      await review('cool.csv', ...MATERIAL, '--out', out);
      files.push(readFileSync(path.join(folder, out, 'cool-record.html'), 'utf8'));
    }
    expect(files[0]).toBe(files[1]);
  });

  it.each([
    [['none.csv', ...MATERIAL], 'none.csv'],
    [['notes.csv', ...MATERIAL], 'notes.csv'],
    [['cool.csv', '--alloy', '9999', '--temper', 'T6'], '9999'],
    [['cool.csv', '--alloy', '6061', '--temper', 'T99'], 'T99'],
    [['cool.csv', '--alloy', '6061'], '6061 without its temper'],
    [['cool.csv', '--temper', 'T6'], 'the temper T6 alone'],
    [['cool.csv', '--alloy', '6061-T0'], 'There is no temper T0'],
    [['cool.csv', '--alloy', '6061-T6', '--temper', 'T4'], 'Two tempers'],
    [['cool.csv', ...MATERIAL, '--probe', 'Lug=6061 T6 old'], '6061 T6 old'],
    [['cool.csv', ...MATERIAL, '--probe', 'Lugg=6061 T6'], 'Lugg'],
    [['cool.csv', ...MATERIAL, '--attached', 'glue'], 'glue'],
    [['cool.csv', ...MATERIAL, '--job', 'colour=red'], 'colour'],
    [['cool.csv', ...MATERIAL, '--loss', '140'], 'limits.allowanceFraction: found 1.4'],
    [['cool.csv', ...MATERIAL, '--read', '{"unitt": "°F"}'], 'unitt'],
  ])('exits with 1, a message that names the trouble, and no record: %j', async (args, named) => {
    const { status, stderr } = await review(...args, '--out', 'bad');
    expect(stderr).toContain(named);
    expect(stderr).not.toMatch(/^ +at /m);
    expect(status).toBe(1);
    expect(existsSync(path.join(folder, 'bad'))).toBe(false);
  });

  it.each([
    [['--limit', '440'], '--limit takes a temperature with its unit'],
    [['--loss', 'ten'], '--loss takes a percentage'],
    [['--probe', 'Lug'], '--probe takes name=value'],
    [['--read', 'unit=F'], '--read takes JSON'],
  ])('exits with 2 for an option typed wrongly: %j', async (args, message) => {
    const { status, stderr } = await review('cool.csv', ...MATERIAL, '--out', 'bad', ...args);
    expect(stderr).toContain(message);
    expect(status).toBe(2);
  });
});
