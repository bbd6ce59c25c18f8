import { describe, expect, it } from 'vitest';
import { traceFigure, verdictFigure } from '../../lib/figure';
import { TemperbookError } from '../../lib/quantity';
import {
  buildRecord,
  checkRecord,
  JOB_FIELDS,
  jobSheet,
  type RecordedChannelVerdict,
  type RecordedFigure,
} from '../../lib/record';
import { sampleParts, sampleRecord } from './samples';

describe('buildRecord', () => {
  const parts = sampleParts();
  const record = sampleRecord();

  it('is plain data that its own schema accepts', () => {
    expect(JSON.parse(JSON.stringify(record))).toEqual(record);
    expect(checkRecord(record)).toBe(record);
  });

  it('keeps the log’s identity and its account to the row', () => {
    const { log } = record;
    expect(log).toMatchObject({ ...parts.log!.source, rows: parts.log!.rows, notes: parts.log!.notes });
    expect(log!.rows.read).toBe(log!.rows.kept + log!.rows.flagged + log!.rows.rejected);
    expect(log!.channels.map(({ faults }) => faults)).toEqual(
      parts.log!.channels.map(({ faults }) => faults),
    );
  });

  it('keeps the verdict but for the arrays that the figure shows', () => {
    expect(record.verdict.channels.map(({ name }) => name)).toEqual(['TC1', 'TC2', 'TC3', 'TC4']);
    expect(JSON.stringify(record.verdict)).not.toContain('"track"');
    const rounded = (figure: unknown) =>
      JSON.parse(JSON.stringify(figure, (_, v) => (typeof v === 'number' ? Number(v.toPrecision(7)) : v)));
    const [{ caption, figure }] = record.figures as [RecordedFigure];
    expect(caption).toBe('Temperature and strength kept');
    expect(rounded(figure)).toEqual(rounded(verdictFigure(parts.log!, parts.verdict)));
  });

  it('writes numbers to the digits they can mean, so that records of two versions of Node are the same', () => {
    const [first, ...rest] = parts.verdict.channels;
    const kept = { ...first!.yieldKeptFraction, nominal: 0.912345678901, low: 2 / 3 };
    const verdict = {
      ...parts.verdict,
      channels: [{ ...first!, yieldKeptFraction: kept, coveredS: 123456.0625 }, ...rest],
    };
    const [channel] = sampleRecord({ verdict }).verdict.channels;
    expect(channel!.yieldKeptFraction).toMatchObject({ nominal: 0.9123457, low: 0.6666667 });
    expect(channel!.coveredS).toBe(123456.063);
    const nudged = { ...kept, nominal: kept.nominal * (1 + 1e-12) };
    const other = { ...verdict, channels: [{ ...verdict.channels[0]!, yieldKeptFraction: nudged }, ...rest] };
    expect(JSON.stringify(sampleRecord({ verdict: other }))).toBe(JSON.stringify(sampleRecord({ verdict })));
  });

  it('takes figures with or without a caption', () => {
    const figure = traceFigure(parts.log!, { title: 'A & B' });
    const { figures } = sampleRecord({ figures: [figure, { caption: 'Look at pass 3', figure }] });
    expect(figures.map(({ caption }) => caption)).toEqual(['A & B', 'Look at pass 3']);
  });

  it('asks no clock: the same parts give the same record, and the time is there only when given', () => {
    expect(sampleRecord()).toEqual(record);
    expect(record.writtenAt).toBeUndefined();
    expect(sampleRecord({ writtenAt: '2031-05-15' }).writtenAt).toBe('2031-05-15');
  });

  it('leaves two lines to sign unless told', () => {
    const { signOff: _, ...unsigned } = parts;
    expect(buildRecord(unsigned).signOff).toEqual([{ role: 'Decided by' }, { role: 'Checked by' }]);
  });

  it.each([
    ['a line the sheet does not have', { job: { colour: 'blue' } }, /colour/],
    ['a job value that is neither text nor number', { job: { part: ['a'] } }, /part/],
    ['a job number that is not one', { job: { thicknessMm: Number.NaN } }, /thicknessMm/],
    [
      'a condition that is missing',
      { decision: { disposition: 'accept with condition', reason: 'x' } },
      /condition/,
    ],
    ['a decision without a reason', { decision: { disposition: 'reject', reason: '' } }, /reason/],
  ] as const)('refuses %s', (_, over, message) => {
    expect(() => sampleRecord(over)).toThrow(TemperbookError);
    expect(() => sampleRecord(over)).toThrow(message);
  });

  it('refuses a number JSON would lose', () => {
    const { verdict } = parts;
    const broken = { ...verdict.channels[0]!.peakC, high: Number.NaN };
    const channels = [{ ...verdict.channels[0]!, peakC: broken }];
    expect(() => sampleRecord({ verdict: { ...verdict, channels } })).toThrow(/high.*NaN/s);
  });
});

describe('recordSchema', () => {
  const record = sampleRecord();
  const [first, ...others] = record.verdict.channels as [RecordedChannelVerdict, ...RecordedChannelVerdict[]];
  const withChannel = (over: object) => ({
    ...record,
    verdict: { ...record.verdict, channels: [{ ...first, ...over }, ...others] },
  });

  it('accepts a record without a log, a decision or figures', () => {
    const { log: _log, decision: _decision, ...rest } = record;
    const bare = { ...rest, figures: [], options: [] };
    expect(checkRecord(bare)).toEqual(bare);
  });

  it.each([
    'form',
    'hash',
    'partHashes',
    'edition',
    'changes',
    'versions',
    'job',
    'verdict',
    'figures',
    'options',
    'readings',
    'signOff',
  ])('needs %s', (key) => {
    expect(() => checkRecord({ ...record, [key]: undefined })).toThrow(TemperbookError);
  });

  it.each([
    ['an unknown key', { ...record, extra: 1 }, /extra/],
    ['another form', { ...record, form: 'receipt' }, /form/],
    [
      'an unknown disposition',
      { ...record, decision: { disposition: 'maybe', reason: 'x' } },
      /one of "accept"/,
    ],
    ['a broken checksum', { ...record, log: { ...record.log, sha256: 'abc' } }, /log\.sha256/],
    ['a verdict without channels', { ...record, verdict: { ...record.verdict, channels: [] } }, /channels/],
    ['an unknown verdict', { ...record, verdict: { ...record.verdict, verdict: 'fine' } }, /verdict/],
    ['nothing', null, /decision record/],
    ['a record of the form before', { ...record, form: 'temperbook decision record 1' }, /record 1/],
    ['low above high', withChannel({ peakC: { ...first.peakC, low: 900 } }), /low ≤ nominal ≤ high/],
    ['99 times the yield', withChannel({ asReadFraction: 99 }), /asReadFraction/],
    ['a chance above 1', withChannel({ chanceKept: 1.2 }), /chanceKept/],
    ['kept without the chance for it', withChannel({ verdict: 'kept', chanceKept: 0.94 }), /0\.95 or more/],
    ['kept where it is blind', withChannel({ verdict: 'kept', chanceKept: null }), /0\.95 or more/],
    [
      'rows that do not add up',
      { ...record, log: { ...record.log, rows: { read: 10, kept: 5, flagged: 4, rejected: 0 } } },
      /add up/,
    ],
    [
      'a time that runs back',
      withChannel({ exposure: { ...first.exposure, timeS: [...first.exposure.timeS].reverse() } }),
      /rising/,
    ],
    ['a second edition that follows none', { ...record, edition: 2 }, /before/],
    [
      'a stretch that ends before it begins',
      withChannel({ blind: [{ fromS: 9, toS: 3, because: 'x' }] }),
      /end after/,
    ],
  ])('refuses %s', (_, value, message) => {
    expect(() => checkRecord(value)).toThrow(message);
  });
});

describe('jobSheet', () => {
  it('takes every line it names and leaves out empty ones', () => {
    const filled = Object.fromEntries(Object.keys(JOB_FIELDS).map((name) => [name, 'x']));
    expect(jobSheet({ ...filled, remarks: '' })).toEqual(
      Object.fromEntries(Object.entries(filled).filter(([name]) => name !== 'remarks')),
    );
    expect(jobSheet({ thicknessMm: 0 })).toEqual({ thicknessMm: 0 });
  });

  it('is not fooled by names every object has', () => {
    expect(() => jobSheet({ constructor: 'x' })).toThrow(TemperbookError);
  });
});
