import { describe, expect, it } from 'vitest';
import { reageFigure, staticSvg } from '../../lib/figure';
import { bestReage, checkChart, reageCurves, temperMade } from '../../lib/heattreat';
import { isothermal } from '../../lib/history';
import { strengthAfter } from '../../lib/strength';
import { type Corner, programme, SOUND, soundLog } from './invent';

const T6 = 'A356.0 T6 sand casting';
const aged = (hours: number, tempC: number) => {
  const corners = SOUND.map(
    ([h, c], k): Corner => [k === 9 ? 41 + hours : k === 10 ? 43 + hours : h, c === 154 ? tempC : c],
  );
  const log = soundLog(
    { 'Load 1': programme(corners), 'Load 2': (h) => programme(corners)(h) - 1 },
    { toH: 60 },
  );
  return temperMade(checkChart(log, T6));
};

describe('what temper a chart made', () => {
  it('is the schedule’s where the chart follows it', () => {
    const { sensors, bySchedule } = aged(4, 154);
    expect(sensors.map(({ word }) => word)).toEqual(['as the schedule', 'as the schedule']);
    expect(bySchedule.leastHeat.nominal).toBeLessThan(bySchedule.mostHeat.nominal);
    for (const { yieldMPa } of sensors) expect(yieldMPa.low).toBeLessThan(yieldMPa.high);
  });

  it('as set is the temper that every judgement starts from', () => {
    // Nothing was heated: the yield is that of the temper itself.
    const { yieldMPa } = strengthAfter(isothermal(20, 1), { alloy: 'A356.0', temper: 'T6' }, { draws: 400 });
    const { asSet } = aged(4, 154).bySchedule;
    // In a second at room temperature what an age left in solution, a few per cent, clusters by some 1e-8.
    for (const line of ['low', 'nominal', 'high'] as const)
      expect(asSet[line] / yieldMPa[line]).toBeCloseTo(1, 7);
  });

  it('is under-aged after an hour, over-aged after hours far too hot, each by sensor', () => {
    const short = aged(1, 154).sensors;
    expect(short.map(({ word }) => word)).toEqual(['under-aged', 'under-aged']);
    // One kelvin colder ages a little less.
    expect(short[1]!.yieldMPa.nominal).toBeLessThan(short[0]!.yieldMPa.nominal);
    expect(aged(12, 240).sensors.map(({ word }) => word)).toEqual(['over-aged', 'over-aged']);
  });

  it('is asked only of a chart with an age', () => {
    expect(() => temperMade(checkChart(soundLog(undefined, { toH: 30 }), T6))).toThrow(
      /no ageing of a load sensor/,
    );
  });
});

describe('the search for a re-age', () => {
  // Beside a weld, an invented half minute at 420 °C: most of it dissolved.
  const welded = { alloy: '6061', temper: 'T6', exposure: isothermal(420, 30) };
  const hours = [1, 2, 4, 6, 8, 12, 16];
  const timesS = hours.map((h) => h * 3600);
  const curves = reageCurves(welded, { tempsC: [160, 177, 190], timesS, toleranceK: 6 });

  it('says at each time what strengthAfter says of that age alone', () => {
    const [, at177] = curves;
    const earlier = [welded.exposure];
    [0, 3, 6].forEach((k) => {
      const { yieldKeptFraction } = strengthAfter(
        isothermal(177, timesS[k]!),
        { alloy: '6061', temper: 'T6' },
        { earlier, draws: 400 },
      );
      // One step of sixteen hours or eight steps: splitting a history may move an answer by 0.02.
      expect(Math.abs(at177!.nominal[k]! - yieldKeptFraction.nominal)).toBeLessThan(0.02);
    });
  });

  it('knows what the furnace’s tolerance does at each time', () => {
    for (const { low, nominal, high, worst } of curves)
      hours.forEach((_, k) => {
        expect(low[k]!).toBeLessThanOrEqual(nominal[k]!);
        expect(nominal[k]!).toBeLessThanOrEqual(high[k]!);
        expect(worst[k]!).toBeLessThanOrEqual(low[k]!);
      });
    const steady = reageCurves(welded, { tempsC: [177], timesS: [3600], toleranceK: 0 })[0]!;
    expect(steady.low[0]).toBe(steady.high[0]);
  });

  it('picks the shortest whose low end no other tried beats by more than half a percent', () => {
    const best = bestReage(curves);
    const tried = curves.flatMap(({ timeS, worst }) => timeS.map((s, k) => ({ s, worst: worst[k]! })));
    const highest = Math.max(...tried.map(({ worst }) => worst));
    expect(best.worst).toBeGreaterThanOrEqual(highest - 0.005);
    for (const { s, worst } of tried) if (s < best.timeS) expect(worst).toBeLessThan(highest - 0.005);
    expect(best.because).toContain('Of 21 tried');
    expect(() => bestReage([])).toThrow(/no re-age/);
    expect(() => reageCurves(welded, { tempsC: [], timesS: [1], toleranceK: 6 })).toThrow(
      /temperatures and times/,
    );
  });

  it('is drawn with a line for each temperature', () => {
    const figure = reageFigure(curves);
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(figure.data.filter(({ fill }) => fill === 'toself')).toHaveLength(3);
    const svg = staticSvg(figure);
    expect(svg).toContain('177 °C');
    expect(svg).not.toContain('NaN');
  });
});
