import { describe, expect, it } from 'vitest';
import { bestWitness, scenarioFigure, strengthFigure, verdictFigure } from '../../lib/figure';
import { TemperbookError } from '../../lib/quantity';
import { passTrace, sampleLog, sampleTrack, sampleVerdict } from './samples';

const log = sampleLog();
const verdict = sampleVerdict(log);

describe('verdictFigure', () => {
  const figure = verdictFigure(log, verdict);
  const strength = figure.data.filter(({ yaxis }) => yaxis === 'y3');

  it('is plain data', () => {
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
  });

  it('stands strength under the trace on the one time axis', () => {
    const { xaxis, yaxis, yaxis3 } = figure.layout;
    expect(xaxis!.anchor).toBe('y3');
    expect(yaxis3!.domain![1]).toBeLessThan(yaxis!.domain![0]);
    expect(new Set(figure.data.map(({ xaxis: id }) => id ?? 'x'))).toEqual(new Set(['x']));
  });

  it('draws each strength in the colour of its trace, ends at the judged value, with the band around it', () => {
    for (const channel of verdict.channels) {
      const trace = figure.data.find(({ name, yaxis }) => name === channel.name && yaxis === 'y')!;
      const line = strength.find(({ name }) => name === channel.name)!;
      expect(line.line!.color).toBe(trace.line!.color);
      expect(line.y!.at(-1)).toBeCloseTo(100 * channel.track.nominal.at(-1)!, 2);
    }
    const bands = strength.filter(({ fill }) => fill === 'tonexty');
    expect(bands).toHaveLength(4);
    for (const band of bands) {
      const low = figure.data[figure.data.indexOf(band) - 1]!;
      band.y!.forEach((high, i) => {
        expect(high!).toBeGreaterThanOrEqual(low.y![i]!);
      });
    }
  });

  it('breaks the strength line where the record has a gap', () => {
    const tc2 = strength.find(({ name }) => name === 'TC2')!;
    const at = tc2.y!.indexOf(null);
    expect(tc2.x![at - 1]! * 60).toBeCloseTo(689.5, 3);
    expect(tc2.x![at + 1]! * 60).toBeCloseTo(760.5, 3);
    expect(strength.find(({ name }) => name === 'TC1')!.y).not.toContain(null);
  });

  it('draws the allowance at what must be kept', () => {
    expect(figure.layout.shapes!.some(({ yref, y0 }) => yref === 'y3' && y0 === 90)).toBe(true);
    expect(figure.layout.annotations!.map(({ text }) => text)).toContain('allowance: keep 90 %');
  });

  it('takes limits and passes from the channel judged worst', () => {
    const texts = figure.layout.annotations!.map(({ text }) => text);
    expect(texts).toContain('shop limit<br>227 °C (440 °F)');
    expect(texts).toEqual(expect.arrayContaining(['pass 1', '2', '3', '4']));
  });

  it('takes the passes from the hottest probe that recorded throughout', () => {
    const [tc1, tc2] = verdict.channels;
    const brief = { ...tc1!, coveredS: tc1!.coveredS / 2 };
    const hotter = { ...tc2!, peakC: { ...tc2!.peakC, nominal: 400 } };
    expect(bestWitness([tc1!, tc2!])).toBe(tc1);
    expect(bestWitness([brief, tc2!])).toBe(tc2);
    expect(bestWitness([tc1!, hotter])).toBe(hotter);
    expect(bestWitness([])).toBeUndefined();
  });

  it('keeps a colour with its channel when another was not judged', () => {
    const fewer = verdictFigure(log, { ...verdict, channels: verdict.channels.slice(1) });
    const tc2 = fewer.data.filter(({ name }) => name === 'TC2');
    expect(new Set(tc2.map(({ line }) => line!.color)).size).toBe(1);
  });
});

describe('strengthFigure', () => {
  it('stands alone, from a verdict or from tracks', () => {
    const fromVerdict = strengthFigure(verdict);
    const fromTracks = strengthFigure(verdict.channels, { allowanceFraction: 0.1 });
    expect(fromTracks).toEqual(fromVerdict);
    expect(() => strengthFigure([])).toThrow(TemperbookError);
  });
});

describe('scenarioFigure', () => {
  const history = passTrace(200, 9);
  const hotter = passTrace(240, 9);

  it('overlays histories of different lengths and judges below only those that were judged', () => {
    const figure = scenarioFigure([
      { name: 'as logged', history, track: sampleTrack(history, 0.08) },
      { name: 'one more pass', history: hotter },
    ]);
    expect(figure.data.filter(({ yaxis, mode }) => yaxis === 'y' && mode === 'lines')).toHaveLength(2);
    expect(figure.data.filter(({ yaxis, fill }) => yaxis === 'y3' && !fill)).toHaveLength(2);
  });

  it('is the trace alone where nothing was judged', () => {
    expect(scenarioFigure([{ name: 'as logged', history }]).layout.yaxis3).toBeUndefined();
    expect(() => scenarioFigure([])).toThrow(TemperbookError);
  });
});
