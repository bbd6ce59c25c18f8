import { describe, expect, it } from 'vitest';
import { type Figure, traceFigure } from '../../lib/figure';
import { thermalHistory } from '../../lib/history';
import { celsiusToFahrenheit, TemperbookError } from '../../lib/quantity';
import { fc } from '../setup/fc';
import { passTrace, sampleLog, twelveChannels, withoutStretch } from './samples';

const named = (figure: Figure, name: string) => figure.data.find((trace) => trace.name === name)!;
const texts = (figure: Figure) => (figure.layout.annotations ?? []).map(({ text }) => text);
const shopLimit = { name: 'shop limit', limitC: 226.7 };

describe('traceFigure', () => {
  it('is plain data: JSON gives back the same figure', () => {
    const figure = traceFigure(sampleLog(), { limits: [shopLimit] });
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
  });

  it('shows every channel of a log and its exact peak', () => {
    const log = sampleLog();
    const figure = traceFigure(log);
    for (const { name, history } of log.channels) {
      const drawn = named(figure, name).y!.filter((y): y is number => y !== null);
      expect(Math.max(...drawn)).toBeCloseTo(Math.max(...history.tempC), 1);
      expect(texts(figure)).toContain(`${name} ${Math.max(...history.tempC).toFixed(0)} °C`);
    }
  });

  it('never draws across a gap: a missing point stands between its two sides', () => {
    const history = withoutStretch(passTrace(160, 14), 690, 760);
    const { x, y } = named(traceFigure([{ name: 'TC2', history }]), 'TC2');
    const breaks = y!.flatMap((value, i) => (value === null ? [i] : []));
    expect(breaks).toHaveLength(1);
    const at = breaks[0]!;
    expect(x![at]).toBeNull();
    expect(x![at - 1]! * 60).toBeCloseTo(689.5, 3);
    expect(x![at + 1]! * 60).toBeCloseTo(760.5, 3);
  });

  it('keeps one hot sample of a million', () => {
    const count = 1_000_000;
    const tempC = new Float64Array(count).fill(25);
    tempC[654_321] = 512;
    const history = thermalHistory(
      Float64Array.from({ length: count }, (_, i) => i * 0.01),
      tempC,
    );
    const { x, y } = named(traceFigure([{ name: 'TC1', history }]), 'TC1');
    expect(y!.length).toBeLessThan(1100);
    const hottest = y!.indexOf(512);
    expect(x![hottest]! * 60).toBeCloseTo(6543.21, 1);
  });

  it.each([
    [90, 's', 1],
    [1500, 'min', 60],
    [40_000, 'h', 3600],
    [900_000, 'd', 86_400],
  ])('draws %d s in %s', (spanS, unit, perUnit) => {
    const figure = traceFigure([{ name: 'TC1', history: thermalHistory([0, spanS], [20, 30]) }]);
    expect(figure.layout.xaxis!.title!.text).toBe(`Time, ${unit}`);
    expect(named(figure, 'TC1').x).toEqual([0, Number((spanS / perUnit).toPrecision(7))]);
  });

  it('labels °F where °F is round, at the same height as its °C', () => {
    const { yaxis, yaxis2 } = traceFigure(sampleLog()).layout;
    expect(yaxis2!.range).toEqual(yaxis!.range);
    expect(yaxis2!.matches).toBe('y');
    const [low, high] = yaxis!.range!;
    const inSight = yaxis2!.tickvals!.filter((c) => c >= low && c <= high);
    expect(inSight.length).toBeGreaterThanOrEqual(4);
    expect(inSight.length).toBeLessThanOrEqual(10);
    yaxis2!.tickvals!.forEach((c, i) => {
      const f = Number(yaxis2!.ticktext![i]);
      expect(celsiusToFahrenheit(c)).toBeCloseTo(f, 1);
      expect(f % 50).toBeCloseTo(0, 9);
    });
  });

  it('names each limit on its line, in both units, and leaves far ones out but for the next above', () => {
    const limits = [shopLimit, { name: 'eutectic', limitC: 557 }, { name: 'boil', limitC: 2500 }];
    const cool = traceFigure([{ name: 'TC1', history: thermalHistory([0, 60], [20, 90]) }], { limits });
    expect(texts(cool)).toContain('shop limit<br>227 °C (440 °F)');
    expect(texts(cool).join()).not.toContain('eutectic');
    expect(cool.layout.shapes!.filter(({ y0 }) => y0 === 226.7)).toHaveLength(1);
    expect(cool.layout.yaxis!.range![1]).toBeGreaterThan(226.7);
  });

  it('crosses each cluster of faults and shades the long one', () => {
    const figure = traceFigure(sampleLog());
    const tc3 = named(figure, 'TC3, left out');
    expect(tc3.x).toHaveLength(4);
    expect(tc3.marker!.symbol).toBe('x-thin');
    const bands = figure.layout.shapes!.filter(({ type }) => type === 'rect');
    expect(bands.map(({ x0, x1 }) => [x0, x1])).toEqual([
      [690 / 60, 760 / 60],
      [985 / 60, 1500 / 60],
    ]);
    expect(texts(figure)).toContain('TC3 open circuit');
    expect(texts(figure)).toContain('✕ reading left out');
  });

  it('shades once where several channels fail together', () => {
    const log = sampleLog();
    const tc3 = log.channels[2]!;
    const figure = traceFigure([tc3, { ...tc3, name: 'TC5' }, { ...tc3, name: 'TC6' }]);
    expect(figure.layout.shapes!.filter(({ type }) => type === 'rect')).toHaveLength(1);
  });

  it('keeps labels of neighbouring peaks apart', () => {
    const figure = traceFigure(
      [201, 202, 203, 204].map((riseC, i) => ({ name: `TC${i + 1}`, history: passTrace(riseC, 9) })),
    );
    const { yaxis, height, margin } = figure.layout;
    const pxPerC = (height! - margin!.t - margin!.b) / (yaxis!.range![1] - yaxis!.range![0]);
    const heights = figure.layout
      .annotations!.filter(({ text }) => /^TC\d \d+ °C$/.test(text))
      .map(({ y, ay }) => -y * pxPerC + ay!)
      .sort((a, b) => a - b);
    expect(heights).toHaveLength(4);
    for (let i = 1; i < 4; i++) expect(heights[i]! - heights[i - 1]!).toBeGreaterThanOrEqual(15.7);
  });

  it('calls numbered probes by their number where that tells them apart', () => {
    const history = passTrace(200, 9);
    const label = (...names: string[]) => texts(traceFigure(names.map((name) => ({ name, history }))));
    const peak = Math.max(...history.tempC).toFixed(0);
    expect(label('TC1 block 12 mm', 'TC2 lug')).toEqual(
      expect.arrayContaining([`TC1 ${peak} °C`, `TC2 ${peak} °C`]),
    );
    expect(label('block near', 'block far').join()).not.toContain('block');
    expect(label('TC1 near', 'TC1 far')).toContain(`TC1 near ${peak} °C`);
  });

  it('gives passes close together one label', () => {
    const pass = (number: number, peakS: number) => ({
      number,
      startS: peakS - 5,
      peakS,
      endS: peakS + 50,
      peakC: 200,
      interpassC: 50,
      heatingRateKPerS: 30,
      coolingRateKPerS: 5,
    });
    const passes = [pass(1, 100), pass(2, 600), pass(3, 630)];
    const figure = traceFigure([{ name: 'TC1', history: passTrace(200, 9) }], { passes });
    expect(texts(figure)).toEqual(expect.arrayContaining(['pass 1', '2, 3']));
  });

  it('gives twelve channels a legend, hottest first, and no two the same look', () => {
    const figure = traceFigure(twelveChannels());
    const lines = figure.data.filter((trace) => trace.showlegend);
    expect(lines).toHaveLength(12);
    expect(figure.layout.showlegend).toBe(true);
    const peaks = lines.map(({ name }) => Number(/, (\d+) °C$/.exec(name!)![1]));
    expect([...peaks].sort((a, b) => b - a)).toEqual(peaks);
    expect(new Set(lines.map(({ line }) => `${line!.color} ${line!.dash}`)).size).toBe(12);
  });

  it('says which channel has nothing to draw, and keeps the colours of the others', () => {
    const dead = { name: 'TC1', history: { timeS: new Float64Array(0), tempC: new Float64Array(0) } };
    const alive = { name: 'TC2', history: thermalHistory([0, 60], [20, 90]) };
    const figure = traceFigure([dead, alive]);
    expect(texts(figure)).toContain('no trusted reading: TC1');
    expect(named(figure, 'TC2').line!.color).toBe(
      named(traceFigure([{ ...alive, name: 'x' }, alive]), 'TC2').line!.color,
    );
    expect(() => traceFigure([dead])).toThrow(TemperbookError);
    expect(() => traceFigure([])).toThrow(TemperbookError);
  });

  it('shows any name as it is, however hostile', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1, maxLength: 12 }), (name) => {
        const figure = traceFigure([{ name, history: thermalHistory([0, 60], [20, 90]) }]);
        const markup = figure.data[0]!.name!;
        expect(markup).not.toMatch(/[<>]/);
        expect(markup.replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&')).toContain(name);
      }),
      { seed: 7 },
    );
  });
});
