import { describe, expect, it } from 'vitest';
import { reageFigure, staticSvg } from '../../lib/figure';
import { bestReage, checkChart, reageCurves, temperMade } from '../../lib/heattreat';
import type { ThermalHistory } from '../../lib/history';
import { ageingCurve } from '../../lib/kinetics';
import { judged } from '../../lib/quantity';
import { type Corner, programme, SOUND, soundLog } from './invent';

const T6 = 'A356.0 T6 sand casting';
const curve = ageingCurve('A356.0');
const last = (values: Float64Array) => values[values.length - 1]!;
const yieldAfter = (history: ThermalHistory) => {
  const end = curve.advance(curve.start({ solutionTreated: true }), history);
  return judged(last(end.yieldMPa), [last(end.yieldLowMPa), last(end.yieldHighMPa)], 'MPa', []);
};
const aged = (hours: number, tempC: number) => {
  const corners = SOUND.map(
    ([h, c], k): Corner => [k === 9 ? 41 + hours : k === 10 ? 43 + hours : h, c === 154 ? tempC : c],
  );
  const log = soundLog(
    { 'Load 1': programme(corners), 'Load 2': (h) => programme(corners)(h) - 1 },
    { toH: 60 },
  );
  return temperMade(checkChart(log, T6), yieldAfter);
};

describe('what temper a chart made, by a strength model passed in', () => {
  it('is the schedule’s where the chart follows it', () => {
    const { sensors, bySchedule } = aged(4, 154);
    expect(sensors.map(({ word }) => word)).toEqual(['as the schedule', 'as the schedule']);
    expect(bySchedule.leastHeat.nominal).toBeLessThan(bySchedule.mostHeat.nominal);
    for (const { yieldMPa } of sensors) expect(yieldMPa.low).toBeLessThan(yieldMPa.high);
  });

  it('is under-aged after an hour, over-aged after hours far too hot, each by sensor', () => {
    const short = aged(1, 154).sensors;
    expect(short.map(({ word }) => word)).toEqual(['under-aged', 'under-aged']);
    // One kelvin colder ages a little less.
    expect(short[1]!.yieldMPa.nominal).toBeLessThan(short[0]!.yieldMPa.nominal);
    expect(aged(12, 240).sensors.map(({ word }) => word)).toEqual(['over-aged', 'over-aged']);
  });

  it('is asked only of a chart with an age', () => {
    expect(() => temperMade(checkChart(soundLog(undefined, { toH: 30 }), T6), yieldAfter)).toThrow(
      /no ageing of a load sensor/,
    );
  });
});

describe('the search for a re-age', () => {
  const hours = [1, 2, 4, 6, 8, 12, 16];
  const curves = reageCurves(
    [160, 177, 190],
    hours.map((h) => h * 3600),
    6,
    yieldAfter,
  );

  it('knows what the furnace’s tolerance does at each time', () => {
    for (const { low, nominal, high, worst } of curves)
      hours.forEach((_, k) => {
        expect(low[k]!).toBeLessThanOrEqual(nominal[k]!);
        expect(nominal[k]!).toBeLessThanOrEqual(high[k]!);
        expect(worst[k]!).toBeLessThanOrEqual(low[k]!);
      });
    const steady = reageCurves([177], [3600], 0, yieldAfter)[0]!;
    expect(steady.low[0]).toBe(steady.high[0]);
  });

  it('picks the highest low end, which no other tried beats', () => {
    const best = bestReage(curves);
    for (const { worst } of curves) for (const one of worst) expect(best.worst).toBeGreaterThanOrEqual(one);
    expect(best.because).toContain('Of 21 tried');
    expect(() => bestReage([])).toThrow(/no re-age/);
    expect(() => reageCurves([], [1], 6, yieldAfter)).toThrow(/temperatures and times/);
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
