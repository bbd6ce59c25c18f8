import { describe, expect, it } from 'vitest';
import { type ChartCheck, checkChart, loadSchedule, type Schedule, temperMade } from '../../lib/heattreat';
import { readLog, type ThermalLog } from '../../lib/log';
import { fc } from '../setup/fc';
import { furnaceOf, programme, SOUND, water } from './invent';

const T6 = 'A356.0 T6 sand casting';
const T61 = 'A356.0 T61 permanent mould casting';
const H = 3600;
const LOADS = {
  'Load 1': programme(SOUND),
  'Load 2': (h: number) => programme(SOUND)(h) - 1,
};
// A reading that stands still for hours is a fault to the reader, in one piece of a chart and not in another.
const air = (h: number) => furnaceOf(programme(SOUND))(h) + 0.3 * Math.sin(1e4 * h);
const ALL = { ...LOADS, 'Furnace air': air, 'Quench water': water };

/** Part of the invented treatment as a logger's file of its own, with dates or without. */
function chart(
  fromH: number,
  toH: number,
  channels: Readonly<Record<string, (hour: number) => number>> = ALL,
  { dated = true, name = `chart from ${fromH} h.csv`, zone = '' } = {},
): ThermalLog {
  const stamp = (s: number) =>
    `${new Date(Date.UTC(2031, 3, 2, 6) + s * 1000).toISOString().slice(0, 19)}${zone}`;
  const times = new Set<number>();
  for (let t = 0; t <= 47 * H; t += 60) times.add(t);
  for (let t = 15.4 * H; t <= 15.6 * H; t++) times.add(Math.round(t));
  const kept = [...times].filter((t) => t >= fromH * H && t <= toH * H).sort((a, b) => a - b);
  const names = Object.keys(channels);
  const rows = kept.map((t) =>
    [dated ? stamp(t) : t - kept[0]!, ...names.map((one) => channels[one]!(t / H).toFixed(2))].join(','),
  );
  const head = `${dated ? 'Clock' : 'Time (s)'},${names.map((one) => `${one} (°C)`).join(',')}`;
  return readLog(new TextEncoder().encode(`${[head, ...rows].join('\n')}\n`), {
    name,
    limits: { gapS: 240 },
  });
}
const wordsOf = ({ requirements }: ChartCheck) =>
  Object.fromEntries(requirements.map(({ name, verdict }) => [name, verdict]));
const whole = checkChart(chart(0, 47), T6);

describe('a chart in two files', () => {
  it('says what the whole chart says, wherever it was cut, in either order', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 46 * 60 }), fc.boolean(), (minute, turned) => {
        const cutH = minute / 60;
        const parts = [chart(0, cutH - 1e-6), chart(cutH, 47)];
        const joined = checkChart(turned ? parts.reverse() : parts, T6);
        expect(joined.requirements).toEqual(whole.requirements);
        expect(joined.stages).toEqual(whole.stages);
        expect(joined.quenchToAgeS).toEqual(whole.quenchToAgeS);
      }),
      { numRuns: 12, seed: 20263, endOnFailure: true },
    );
  });

  it('never meets more with a piece of it missing', () => {
    const met = new Set(whole.requirements.filter((one) => one.verdict === 'met').map(({ name }) => name));
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 44 * 60 }),
        fc.integer({ min: 10, max: 600 }),
        (minute, missing) => {
          const from = Math.min((minute + missing) / 60, 46.5);
          const { requirements } = checkChart([chart(0, minute / 60), chart(from, 47)], T6);
          for (const { name, verdict, missing: asked } of requirements) {
            if (verdict === 'met') expect(met).toContain(name);
            if (verdict === 'cannot tell') expect(asked).toBeTruthy();
          }
        },
      ),
      { numRuns: 12, seed: 20264, endOnFailure: true },
    );
  });

  it('is not met in a soak that was interrupted and not recorded, and may be where enough is left', () => {
    const soak = (fromH: number, toH: number) =>
      wordsOf(checkChart([chart(0, fromH), chart(toH, 47)], T6))['Solution: time in the band'];
    expect(soak(8, 9)).toBe('cannot tell');
    // Twelve hours of the twelve and a half stand on the second chart.
    expect(soak(3.2, 3.4)).toBe('met');
  });

  it('counts the time between, from quench to age, and says that nobody recorded it', () => {
    const check = checkChart([chart(0, 18), chart(39, 47)], T6);
    expect(check.verdict).toBe('met');
    expect(check.quenchToAgeS!.nominal).toBeCloseTo(whole.quenchToAgeS!.nominal, 3);
    expect(check.notes.join('\n')).toMatch(
      /Joined by their clocks: 21 h between chart from 0 h\.csv and chart from 39 h\.csv\./,
    );
    expect(check.notes.join('\n')).toContain('No chart gives its time zone');
    const wait = checkChart([chart(0, 18), chart(39, 47)], T61).requirements.find(
      ({ stage }) => stage === 'wait',
    )!;
    expect(wait).toMatchObject({
      verdict: 'cannot tell',
      missing: expect.stringContaining('nobody recorded it for 21 h'),
    });
    // Too short a wait is too short, whatever the temperature was.
    const short = { ...loadSchedule(T61) };
    const asked: Schedule = { ...short, wait: { ...short.wait!, leastH: 30, mostH: null } };
    expect(wordsOf(checkChart([chart(0, 18), chart(39, 47)], asked))['Wait between quench and ageing']).toBe(
      'not met',
    );
  });

  it('makes the temper that the whole chart makes', () => {
    const one = temperMade(whole);
    const two = temperMade(checkChart([chart(0, 18), chart(39, 47)], T6));
    for (const [k, sensor] of two.sensors.entries()) {
      expect(sensor.word).toBe(one.sensors[k]!.word);
      // A reading more or less of a shelf at 24 °C moves nothing.
      expect(sensor.yieldMPa.nominal).toBeCloseTo(one.sensors[k]!.yieldMPa.nominal, 1);
      expect(sensor.because).toContain('for 21 h no chart shows it');
    }
  });
});

describe('charts of two furnaces', () => {
  const ageing = {
    'Load A': LOADS['Load 1'],
    'Load B': LOADS['Load 2'],
    TC9: (h: number) => air(h) + 1,
  };

  it('may have sensors of other names: each stage goes by its own, and it is told', () => {
    const check = checkChart([chart(0, 18), chart(39, 47, ageing)], T6);
    expect(check.verdict).toBe('met');
    expect(check.notes.join('\n')).toMatch(
      /Not on every chart: "Load 1" on chart from 0 h\.csv;.*"Load B" on chart from 39 h\.csv/,
    );
    // A sensor that came up a day later than those of another chart is no load sensor for it.
    expect(check.sensors.find(({ name }) => name === 'TC9')!.role).toBe('not told');
    const made = temperMade(check);
    expect(made.sensors.map(({ sensor }) => sensor)).toEqual(['Load A', 'Load B']);
    expect(made.sensors[0]!.yieldMPa.nominal).toBeCloseTo(temperMade(whole).sensors[0]!.yieldMPa.nominal, 0);
  });

  it('count a sensor that left within a hold as not recorded', () => {
    const one = { 'Load 1': LOADS['Load 1'] };
    expect(wordsOf(checkChart([chart(0, 9), chart(9 + 1 / 60, 47, one)], T6))).toMatchObject({
      'Solution: time in the band': 'cannot tell',
      'Ageing: time in the band': 'met',
    });
  });
});

describe('charts that cannot be joined', () => {
  it('overlap, are one, or have no date', () => {
    expect(() => checkChart([chart(0, 18), chart(17, 47)], T6)).toThrow(
      /cover the same time.*starts 60 min before chart from 0 h\.csv ends/s,
    );
    const one = chart(0, 47);
    expect(() => checkChart([one, one], T6)).toThrow(/One chart is given twice/);
    const bare = [chart(0, 18, ALL, { dated: false }), chart(39, 47, ALL, { dated: false })];
    expect(() => checkChart(bare, T6)).toThrow(/starts on no date.*state the pause/s);
    expect(() => checkChart([chart(0, 18), chart(39, 47, ALL, { zone: 'Z' })], T6)).toThrow(
      /time zone in all/,
    );
    expect(() => checkChart([chart(0, 18), chart(39, 47)], T6, { sensors: { 'Load 9': 'load' } })).toThrow(
      /"Load 9".*"Load 1", "Load 2"/s,
    );
  });

  it('take the pause that is stated, and tell where clocks say otherwise', () => {
    const bare = [chart(0, 18, ALL, { dated: false }), chart(39, 47, ALL, { dated: false })];
    const check = checkChart(bare, T6, { pausesS: [21 * H] });
    expect(check.requirements).toEqual(checkChart([chart(0, 18), chart(39, 47)], T6).requirements);
    expect(() => checkChart(bare, T6, { pausesS: [] })).toThrow(/0 pauses, 2 charts/);
    expect(() => checkChart(bare, T6, { pausesS: [-1] })).toThrow(/Pause between two charts/);
    const other = checkChart([chart(0, 18), chart(39, 47)], T6, { pausesS: [2 * H] });
    expect(other.notes.join('\n')).toMatch(
      /with the pause you state: 2 h .*Their clocks say otherwise: 21 h/s,
    );
    expect(other.quenchToAgeS!.nominal / H).toBeCloseTo(whole.quenchToAgeS!.nominal / H - 19, 1);
  });
});
