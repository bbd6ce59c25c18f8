import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { TemperbookError } from '../../../lib/quantity';
import {
  amendRecord,
  amendRecordFile,
  auditFolder,
  buildRecord,
  readRecord,
  recordHtml,
  recordName,
  writeRecord,
} from '../../../lib/record';
import { filesIn } from '../../setup/filesIn';
import { unwrapped } from '../../setup/unwrapped';
import { sampleParts, sampleRecord } from '../samples';

/** No system gives a process this number. */
const NO_PROCESS = 2 ** 30;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('writeRecord', () => {
  const record = sampleRecord();

  it('writes one page and one JSON file, and the page can be made again from the JSON', () => {
    const written = writeRecord(record, join(folder, 'new', 'place'));
    expect(filesIn(join(folder, 'new', 'place'))).toEqual(['m-0412-record.html', 'm-0412-record.json']);
    const again = readRecord(written.json);
    expect(again).toEqual(record);
    expect(recordHtml(again)).toBe(readFileSync(written.html, 'utf8'));
  });

  it('takes the same record again for the edition that stands there, whenever it is written', () => {
    const written = writeRecord(record, folder);
    const bytes = () => Buffer.concat([readFileSync(written.html), readFileSync(written.json)]);
    const before = bytes();
    expect(writeRecord(sampleRecord({ writtenAt: '2031-05-20' }), folder)).toEqual({
      ...written,
      isNew: false,
    });
    expect(bytes().equals(before)).toBe(true);
    expect(filesIn(folder)).toHaveLength(2);
  });

  it('replaces nothing: another verdict on the same log is an edition beside it that names the one before', () => {
    const signed = writeRecord(
      sampleRecord({ decision: { disposition: 'reject', reason: 'Too soft.' } }),
      folder,
    );
    const before = readFileSync(signed.json);
    const { decision: _, ...undecided } = sampleParts();
    const verdict = { ...undecided.verdict, temper: 'T7', allowanceFraction: 0.2 };
    const next = writeRecord(buildRecord({ ...undecided, verdict }), folder);
    expect(next).toMatchObject({
      edition: 2,
      isNew: true,
      json: join(folder, 'm-0412-record.edition-2.json'),
    });
    expect(readFileSync(signed.json).equals(before)).toBe(true);
    const second = readRecord(next.json);
    expect(second.before).toBe(readRecord(signed.json).hash);
    expect(second.changes).toEqual(
      expect.arrayContaining([
        { what: 'Metal', was: 'A356.0-T6', now: 'A356.0-T7' },
        { what: 'Loss allowed', was: '10 %', now: '20 %' },
        { what: 'Decision', was: 'reject', now: 'nothing' },
      ]),
    );
    expect(auditFolder(folder)).toEqual({ editions: 2, records: 1, findings: [] });
    // The first question asked again is the first edition, not a third.
    expect(
      writeRecord(sampleRecord({ decision: { disposition: 'reject', reason: 'Too soft.' } }), folder),
    ).toEqual({ ...signed, isNew: false });
  });

  it('keeps apart two logs of one name', () => {
    const { job: _, ...parts } = sampleParts();
    writeRecord(buildRecord(parts), folder);
    const log = { ...parts.log!, source: { ...parts.log!.source, sha256: 'a'.repeat(64) } };
    expect(() => writeRecord(buildRecord({ ...parts, log }), folder)).toThrow(/another log/);
    expect(filesIn(folder)).toHaveLength(2);
  });

  it('keeps lists of numbers on one line, so that the file can be read by people', () => {
    const { json } = writeRecord(record, folder);
    expect(readFileSync(json, 'utf8').split('\n').length).toBeLessThan(4000);
  });

  it.each(['html', 'json'])('leaves another %s file of that name alone', (ending) => {
    const path = join(folder, `m-0412-record.${ending}`);
    writeFileSync(path, 'someone’s own notes');
    expect(() => writeRecord(record, folder)).toThrow(TemperbookError);
    expect(readFileSync(path, 'utf8')).toBe('someone’s own notes');
    expect(filesIn(folder)).toHaveLength(1);
  });

  it.each(['../up', '', '.hidden', 'a/b', 'a\u0000b', 'ends. ', 'x.edition-2', 'é'.repeat(100)])(
    'refuses the name %j',
    (name) => {
      expect(() => writeRecord(record, folder, name)).toThrow(TemperbookError);
      expect(filesIn(folder)).toEqual([]);
    },
  );

  it('refuses a record that is not whole, and writes nothing', () => {
    const broken = { ...record, verdict: { ...record.verdict, channels: [] } };
    expect(() => writeRecord(broken, folder)).toThrow(TemperbookError);
    expect(filesIn(folder)).toEqual([]);
  });
});

describe('what may stand in the way of a record', () => {
  const record = sampleRecord();

  it.each(['html', 'json'])(
    'a folder or a link called as the %s file is told of and left alone',
    (ending) => {
      const path = join(folder, `m-0412-record.${ending}`);
      mkdirSync(path);
      expect(() => writeRecord(record, folder)).toThrow(/a folder/);
      rmSync(path, { recursive: true });
      symlinkSync(join(folder, 'nowhere'), path);
      expect(() => writeRecord(record, folder)).toThrow(/a link/);
      expect(filesIn(folder)).toEqual([`m-0412-record.${ending}`]);
    },
  );

  it('a file where the folder should be', () => {
    writeFileSync(join(folder, 'file'), '');
    expect(() => writeRecord(record, join(folder, 'file'))).toThrow(/cannot be opened/);
  });

  it('a record that was cut short: it says so and writes nothing', () => {
    const { json } = writeRecord(record, folder);
    truncateSync(json, 3000);
    expect(() => writeRecord(sampleRecord({ job: { job: 'M-0412', part: 'x' } }), folder)).toThrow(
      /cannot be read/,
    );
    expect(filesIn(folder)).toHaveLength(2);
  });
});

describe('amendRecordFile', () => {
  it('adds a reading, then a decision, each an edition that says what changed', () => {
    const { decision: _, ...parts } = sampleParts();
    const first = writeRecord(buildRecord(parts), folder);
    const reading = { channel: 'TC1', kind: 'brinell', value: 68, reference: 75 } as const;
    const second = amendRecordFile(first.json, { readings: [reading] });
    const read = readRecord(second.json);
    // The verdict counts it, so that nothing is left beside the verdict.
    expect(read).toMatchObject({ edition: 2, readings: [] });
    expect(read.verdict.readings?.given).toEqual([reading]);
    expect(read.changes).toContainEqual({
      what: 'Reading 1',
      was: 'nothing',
      now: '68 HB at TC1, 75 HB on cold metal',
    });
    const decided = { disposition: 'reject', reason: 'Soft beside TC1.' } as const;
    expect(() => amendRecordFile(first.json, { decision: decided })).toThrow(/later edition.*edition-2/s);
    const third = amendRecordFile(second.json, {
      decision: decided,
      signOff: [{ role: 'Decided by', name: 'bench 2', date: '2031-05-16' }],
    });
    expect(readRecord(third.json).changes).toEqual([
      { what: 'Decided by', was: 'not signed', now: 'bench 2, 2031-05-16' },
      { what: 'Decision', was: 'nothing', now: 'reject' },
      { what: 'Reason', was: 'nothing', now: 'Soft beside TC1.' },
    ]);
    expect(unwrapped(readFileSync(third.html, 'utf8'))).toContain('68 HB at TC1');
    expect(auditFolder(folder)).toEqual({ editions: 3, records: 1, findings: [] });
  });

  it.each([
    ['nothing', {}, /changes nothing/],
    [
      'a probe it does not have',
      { readings: [{ channel: 'TC9', kind: 'brinell', value: 68 }] },
      /TC9.*"TC1"/s,
    ],
    [
      'a scale nobody has',
      { readings: [{ channel: 'TC1', kind: 'shore' as 'brinell', value: 68 }] },
      /one of brinell/,
    ],
    ['a line it does not know', { job: { colour: 'blue' } }, /colour/],
    [
      'a probe that was not judged, with the reason,',
      { readings: [{ channel: 'TC7 tube', kind: 'brinell', value: 68 }] },
      /Nothing was judged at "TC7 tube".*nobody said what it sits on.*key probes\."TC7 tube".*review it again/s,
    ],
  ] as const)('refuses %s and writes nothing', (_, amendment, message) => {
    const parts = sampleParts();
    const unseen = { name: 'TC7 tube', isOnPart: true, because: 'nobody said what it sits on' };
    const verdict = { ...parts.verdict, notJudged: [unseen] };
    const { json } = writeRecord(buildRecord({ ...parts, verdict }), folder);
    expect(() => amendRecordFile(json, amendment)).toThrow(message);
    expect(filesIn(folder)).toHaveLength(2);
  });
});

describe('a verdict that readings weighed', () => {
  it('is an edition that names them, on the page as in the changes', () => {
    writeRecord(sampleRecord(), folder);
    const parts = sampleParts();
    const given = [{ channel: 'TC1', kind: 'brinell', value: 78, reference: 80 }] as const;
    const readings = { given, effectiveDraws: 310, contradicting: [], because: ['Harder than feared.'] };
    const next = writeRecord(buildRecord({ ...parts, verdict: { ...parts.verdict, readings } }), folder);
    expect(readRecord(next.json).changes).toEqual([
      { what: 'Reading 1', was: 'nothing', now: '78 HB at TC1, 80 HB on cold metal' },
    ]);
    expect(readFileSync(next.html, 'utf8')).toContain('The verdict counts these. Harder than feared.');
  });
});

describe('auditFolder', () => {
  /** Three editions of one record. */
  function chain(): string[] {
    const first = writeRecord(sampleRecord(), folder);
    const second = amendRecordFile(first.json, { job: { remarks: 'one' } });
    return [first.json, second.json, amendRecordFile(second.json, { job: { remarks: 'two' } }).json];
  }
  const problems = () => auditFolder(folder).findings.map(({ problem }) => problem);

  it('names the part that was changed by hand, and so does reading it', () => {
    const [, second] = chain() as [string, string, string];
    writeFileSync(second, readFileSync(second, 'utf8').replace('"remarks": "one"', '"remarks": "uno"'));
    expect(problems()).toEqual(['Changed after it was written: job.']);
    expect(() => readRecord(second)).toThrow(/changed by hand: job\./);
  });

  it('finds an edition taken out of the middle, and one put in its place', () => {
    const [first, second] = chain() as [string, string, string];
    const other = amendRecord(readRecord(first), { job: { remarks: 'other' } });
    unlinkSync(second);
    unlinkSync(second.replace('.json', '.html'));
    expect(problems()).toEqual(['Edition 2, which it follows, is missing.']);
    writeFileSync(second, JSON.stringify(other));
    writeFileSync(second.replace('.json', '.html'), recordHtml(other));
    expect(problems()).toEqual([expect.stringContaining('does not follow edition 2')]);
  });

  it('finds a page that is missing, of another record, or alone, what is cut short, and what a write left', () => {
    const [first, second, third] = chain() as [string, string, string];
    unlinkSync(first.replace('.json', '.html'));
    writeFileSync(second.replace('.json', '.html'), recordHtml(readRecord(first)));
    truncateSync(third, 5000);
    writeFileSync(join(folder, 'alone.html'), recordHtml(readRecord(first)));
    writeFileSync(join(folder, `.unfinished-${NO_PROCESS}-x.json`), '{');
    writeFileSync(join(folder, 'notes.json'), '{');
    const found = problems().sort();
    expect(found).toEqual([
      'A write that was stopped left this. The next record written here takes it away.',
      expect.stringContaining('Cut short or damaged'),
      'Its page is missing. The next review or amendment of this record makes it.',
      'The JSON file of this page is missing.',
      'The page beside it is of another record.',
    ]);
  });
});

describe('recordName', () => {
  it.each([
    [{ job: { job: 'M 04/12 é' } }, 'm-04-12-e-record'],
    [{ job: { part: 'Hinge block' } }, 'hinge-block-record'],
    [{ job: {} }, 'mast-foot-record'],
    [{ job: { job: '///' } }, 'temper-record'],
  ])('%j gives %s', (over, name) => {
    expect(recordName(sampleRecord(over))).toBe(name);
  });

  it('keeps long names and names in other scripts apart, in letters every file system takes', () => {
    const long = 'a long name of a job '.repeat(20);
    const jobs = ['Мачта 5', 'Опора 5', '桅杆', '支架', `${long}1`, `${long}2`, '٣', '٤'];
    const names = jobs.map((job) => recordName({ job: { job } }));
    expect(new Set(names).size).toBe(jobs.length);
    for (const name of names) expect(name).toMatch(/^[a-z0-9][a-z0-9-]{0,80}-record$/);
    expect(recordName({ job: { job: 'é' } })).toBe(recordName({ job: { job: 'e\u0301' } }));
  });
});

describe('readRecord', () => {
  it('says what to give where it is given a record’s page or the folder', () => {
    const { html } = writeRecord(sampleRecord(), folder);
    expect(() => readRecord(html)).toThrow(/a page.*Give m-0412-record\.json/s);
    expect(() => readRecord(folder)).toThrow(/a folder, not a record/);
  });

  it('says which file is no record', () => {
    const path = join(folder, 'x.json');
    expect(() => readRecord(path)).toThrow(TemperbookError);
    writeFileSync(path, '{');
    expect(() => readRecord(path)).toThrow(/x\.json/);
    writeFileSync(path, '{}');
    expect(() => readRecord(path)).toThrow(/x\.json.*not a decision record/);
  });
});
