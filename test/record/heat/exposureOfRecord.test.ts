import { beforeAll, describe, expect, it } from 'vitest';
import { exposureOf, type JudgeOptions, judge } from '../../../lib/decision';
import type { Exposure } from '../../../lib/exposure';
import { thermalHistory } from '../../../lib/history';
import { readLog, type ThermalLog } from '../../../lib/log';
import { buildRecord, type DecisionRecord, exposureOfRecord } from '../../../lib/record';
import { thinExposure } from '../../../lib/record/heat/thinExposure';
import { strengthAfter } from '../../../lib/strength';

const options: JudgeOptions = { alloy: 'A356.0', temper: 'T6', attachment: 'peened hole' };
const metal = { alloy: 'A356.0', temper: 'T6' };
let log: ThermalLog;
let record: DecisionRecord;
beforeAll(() => {
  const whole = readLog('data/demo/mast-foot-weld.csv');
  log = { ...whole, channels: whole.channels.slice(0, 1) };
  record = buildRecord({ verdict: judge(log, options), log });
});

/** How far two exposures are apart in strength: share kept, and chance of it. */
function apart(a: Exposure, b: Exposure, earlier: readonly Exposure[] = []) {
  const [one, two] = [a, b].map((exposure) =>
    strengthAfter(exposure, metal, { earlier, draws: 400, endOnly: true }),
  );
  return {
    kept: Math.abs(one!.yieldKeptFraction.low - two!.yieldKeptFraction.low),
    chance: Math.abs(one!.chanceOfRecorded - two!.chanceOfRecorded),
  };
}

describe('exposureOfRecord', () => {
  // Splitting and thinning may move a chance by 0.02 (rules of the draws); a tenth of a percent of yield is what
  // 0.1 K does at the hottest, where 1 K changes a rate by about 1 %, and is not seen in any figure.
  it('heats metal as the log did', () => {
    for (const { name } of record.verdict.channels) {
      const { kept, chance } = apart(exposureOfRecord(record, name), exposureOf(log, name, options));
      expect(kept).toBeLessThan(0.001);
      expect(chance).toBeLessThanOrEqual(0.02);
    }
  });

  it('keeps doubts and blind times, in at most 500 samples', () => {
    for (const { name } of record.verdict.channels) {
      const [kept, whole] = [exposureOfRecord(record, name), exposureOf(log, name, options)];
      expect(kept.doubts.map(({ kind, of }) => [kind, of])).toEqual(
        whole.doubts.map(({ kind, of }) => [kind, of]),
      );
      expect(kept.blind).toHaveLength(whole.blind.length);
      expect(kept.history.timeS.length).toBeLessThanOrEqual(500);
    }
    const perProbe =
      JSON.stringify(record.verdict.channels.map(({ exposure }) => exposure)).length /
      record.verdict.channels.length;
    expect(perProbe).toBeLessThan(60_000);
  });

  it('is what `earlier` takes: the second weld is judged as after the first log', () => {
    const name = record.verdict.channels[0]!.name;
    const again = (first: Exposure) => judge(log, { ...options, earlier: [first] }).channels[0]!;
    const fromRecord = again(exposureOfRecord(record, name));
    const fromLog = again(exposureOf(log, name, options));
    expect(Math.abs(fromRecord.yieldKeptFraction.low - fromLog.yieldKeptFraction.low)).toBeLessThan(0.001);
    expect(fromRecord.yieldKeptFraction.nominal).toBeLessThan(
      record.verdict.channels[0]!.yieldKeptFraction.nominal,
    );
  });

  it('holds the heats before its own as well: two records of a chain are the heats one by one', () => {
    const name = record.verdict.channels[0]!.name;
    const first = exposureOfRecord(record, name);
    const second = buildRecord({ verdict: judge(log, { ...options, earlier: [first] }), log });
    const both = exposureOfRecord(second, name);
    const own = exposureOf(log, name, { ...options, earlier: [first] });
    const oneByOne = strengthAfter(own, metal, { earlier: [first], draws: 400, endOnly: true });
    const atOnce = strengthAfter(both, metal, { draws: 400, endOnly: true });
    expect(Math.abs(oneByOne.yieldKeptFraction.low - atOnce.yieldKeptFraction.low)).toBeLessThan(0.001);
    expect(Math.abs(oneByOne.chanceOfRecorded - atOnce.chanceOfRecorded)).toBeLessThanOrEqual(0.02);
  });

  it('names the probes it has', () => {
    expect(() => exposureOfRecord(record, 'TC99')).toThrow(/TC99.*one of/s);
  });
});

describe('thinExposure', () => {
  const timeS = Float64Array.from({ length: 6000 }, (_, i) => i / 2);
  const tempC = timeS.map(
    (t) => 25 + 250 * Math.exp(-(((t - 900) / 120) ** 2)) + 180 * Math.exp(-(((t - 2100) / 40) ** 2)),
  );
  // What a gap may hide stands where the history itself is straight.
  const shiftK = timeS.map((t) => 60 * Math.exp(-(((t - 1500) / 5) ** 2)));
  const exposure: Exposure = {
    history: thermalHistory(timeS, tempC, [2800]),
    doubts: [{ kind: 'gap', of: 'a gap', spread: { shape: 'even', low: 0, high: 1 }, shiftK }],
    blind: [],
    because: [],
  };

  it('loses neither the peaks, nor what a doubt hides between them, nor the gaps', () => {
    const thin = thinExposure(exposure, 200);
    expect(thin.history.timeS.length).toBeLessThanOrEqual(200);
    expect(Math.max(...thin.history.tempC)).toBe(Math.max(...tempC));
    const [doubt] = thin.doubts;
    expect(Math.max(...('shiftK' in doubt! ? doubt.shiftK : []))).toBe(60);
    expect(thin.history.timeS[thin.history.gapAfter![0]!]).toBe(1400);
    const { kept, chance } = apart(thin, exposure);
    expect(kept).toBeLessThan(0.001);
    expect(chance).toBeLessThanOrEqual(0.02);
  });

  it('leaves a short one alone', () => {
    expect(thinExposure(exposure, 6000)).toBe(exposure);
  });
});
