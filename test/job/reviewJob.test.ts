import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { judge } from '../../lib/decision';
import { checkChart, temperMade } from '../../lib/heattreat';
import { type JobFile, readJob, reviewJob } from '../../lib/job';
import { readLog } from '../../lib/log';
import { buildRecord, writeRecord } from '../../lib/record';
import { ATTACHMENT_KINDS } from '../../lib/thermocouple';
import { chartFinding, chartLot } from '../../lib/verify';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';

let folder: string;
let log: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'review-job-'));
  log = logFile('weld.csv', ['TC1 block', 'TC2 tube', 'Ambient'], 260);
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Ten minutes at 1 Hz: up to the peak in one, down again over eight; each further probe half as hot. */
function logFile(name: string, probes: readonly string[], peakC: number): string {
  const rows = Array.from({ length: 601 }, (_, s) => {
    const share = s < 60 ? s / 60 : Math.max(0, 1 - (s - 60) / 480);
    return [s, ...probes.map((_probe, k) => (20 + ((peakC - 20) * share) / 2 ** k).toFixed(1))].join();
  });
  const file = path.join(folder, name);
  writeFileSync(file, [`Time (s),${probes.map((probe) => `${probe} (°C)`).join()}`, ...rows, ''].join('\n'));
  return file;
}

const METAL = { log: '', metal: 'A356-T6' } as const;
const review = (over: Partial<JobFile>) => reviewJob(readJob({ ...METAL, log, ...over }));

describe('reviewJob', () => {
  it('answers as judge does on the same log, whatever is said', () => {
    const saidOf = fc.record({
      attachment: fc.constantFrom(...ATTACHMENT_KINDS),
      tube: fc.constantFrom(
        { alloy: '6061', temper: 'T6' },
        { alloy: '6061', temper: 'T4' },
        { alloy: '6063', temper: 'T6' },
      ),
      temper: fc.constantFrom('T6', 'T7'),
      allowanceFraction: fc.constantFrom(0.05, 0.1, 0.2),
      limitC: fc.constantFrom('440F', 200),
      reading: fc.option(fc.double({ min: 60, max: 80, noNaN: true }), { nil: undefined }),
      air: fc.boolean(),
    });
    fc.assert(
      fc.property(saidOf, ({ attachment, tube, temper, allowanceFraction, limitC, reading, air }) => {
        const readings =
          reading === undefined
            ? undefined
            : [{ channel: 'TC1 block', kind: 'brinell' as const, value: reading, reference: 80 }];
        const { verdict } = review({
          metal: { alloy: 'A356.0', temper },
          measuring: { attachment },
          limits: { limitC, allowanceFraction },
          probes: {
            'TC2 tube': { metal: `${tube.alloy}-${tube.temper}` },
            ...(air ? { Ambient: { role: 'air' as const } } : {}),
          },
          ...(readings ? { readings } : {}),
        });
        const byJudge = judge(readLog(log), {
          alloy: 'A356.0',
          temper,
          attachment,
          limitC,
          allowanceFraction,
          ...(readings ? { readings } : {}),
          part: {},
          byChannel: { 'TC2 tube': tube, ...(air ? { Ambient: { role: 'air' } } : {}) },
        });
        expect(verdict).toEqual(byJudge);
      }),
      { numRuns: inFull ? 30 : 3, endOnFailure: true },
    );
  });

  it('counts the furnace chart of the lot', () => {
    const lot = {
      chart: { file: path.resolve('data/demo/furnace-chart.csv'), schedule: 'A356.0 T6 sand casting' },
    };
    const said = { metal: 'A356-T6', measuring: { attachment: 'peened hole' as const } };
    const { verdict, options } = review({ ...said, lot });
    const check = checkChart(readLog(lot.chart.file), lot.chart.schedule);
    expect(verdict).toEqual(
      judge(readLog(log), {
        ...options,
        lots: [
          chartLot(
            'the lot of the chart',
            { alloy: 'A356.0', temper: 'T6' },
            chartFinding(check, temperMade(check)),
          ),
        ],
      }),
    );
    expect(verdict.channels[0]!.yieldKeptFraction).not.toEqual(
      review(said).verdict.channels[0]!.yieldKeptFraction,
    );
  });

  it('says what nobody said: the fixing first, then metal and role of probes by their names', () => {
    const { asked, verdict } = review({});
    expect(asked.map(({ about, probe }) => [about, probe])).toEqual([
      ['fixing', undefined],
      ['metal of a probe', 'TC2 tube'],
      ['role', 'Ambient'],
    ]);
    // A tube is not judged as a casting, and a part with a place that nobody named is not cleared.
    expect(verdict.channels.map(({ name }) => name)).toEqual(['TC1 block']);
    expect(verdict.notJudged).toMatchObject([
      { name: 'TC2 tube', isOnPart: true },
      { name: 'Ambient', isOnPart: false },
    ]);
    expect(verdict.chanceKept).toBeNull();
    expect(verdict.verdict).not.toBe('kept');
  });

  it('asks nothing once it is said, by probe or by the defaults', () => {
    writeFileSync(
      path.join(folder, 'shop.json'),
      JSON.stringify({
        measuring: { attachment: 'cemented' },
        probes: [
          { named: 'tube', metal: '6061-T6' },
          { named: 'ambient', role: 'air' },
        ],
      }),
    );
    const byDefaults = review({ defaults: path.join(folder, 'shop.json') });
    const byProbe = review({
      measuring: { attachment: 'cemented' },
      probes: { 'TC2 tube': { metal: '6061-T6' }, Ambient: { role: 'air' } },
    });
    expect(byDefaults.asked).toEqual([]);
    expect(byProbe.asked).toEqual([]);
    expect(byDefaults.verdict).toEqual(byProbe.verdict);
  });

  it('lists every probe the log does not have, with what was probably meant', () => {
    expect(() =>
      review({
        probes: { 'TC1 blok': { role: 'part' } },
        readings: [{ channel: 'TC2 tub', kind: 'vickers', value: 90 }],
      }),
    ).toThrow(/TC1 blok.*did you mean "TC1 block"\?[\s\S]*readings\[0\]\.channel.*did you mean "TC2 tube"\?/);
  });

  it('refuses a job without a metal, or with its alloy alone', () => {
    expect(() => review({ metal: undefined })).toThrow(/does not say what metal/);
    expect(() => review({ metal: 'A356' })).toThrow(/A356 without its temper/);
  });

  it('counts an earlier heat at the place it was recorded, and asks where a probe was not there', () => {
    const one = logFile('one.csv', ['TC1 block'], 300);
    const first = reviewJob(readJob({ log: one, metal: 'A356-T6', part: { name: 'first' } }));
    const { json } = writeRecord(buildRecord(first.record), folder);
    const second = (probes?: Record<string, string>) =>
      reviewJob(
        readJob({ log: one, metal: 'A356-T6', earlier: [{ record: json, ...(probes ? { probes } : {}) }] }),
      );
    const again = second();
    expect(again.verdict.channels[0]!.earlier).toHaveLength(1);
    expect(again.verdict.channels[0]!.yieldKeptFraction.nominal).toBeLessThan(
      first.verdict.channels[0]!.yieldKeptFraction.nominal,
    );
    expect(() => second({ 'TC1 block': 'TC9' })).toThrow(/no "TC9" in it/);
  });

  it('counts heats told in words before the weld', () => {
    const one = logFile('told.csv', ['TC1 block'], 120);
    const cold = reviewJob(readJob({ log: one, metal: 'A356-T6' })).verdict.channels[0]!;
    const baked = reviewJob(readJob({ log: one, metal: 'A356-T6', heats: ['2 x 480F 2h'] })).verdict
      .channels[0]!;
    expect(baked.earlier).toHaveLength(2);
    expect(baked.yieldKeptFraction.nominal).toBeLessThan(cold.yieldKeptFraction.nominal - 0.1);
    expect(() => readJob({ log: one, metal: 'A356-T6', heats: ['390 1.5h'] })).toThrow(
      /heats\[0\].*without a unit/,
    );
  });
});
