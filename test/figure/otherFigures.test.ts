import { describe, expect, it } from 'vitest';
import { heatmapFigure, mapFigure, profileFigure, residualFigure } from '../../lib/figure';
import { TemperbookError } from '../../lib/quantity';

describe('mapFigure', () => {
  const map = {
    timeS: Float64Array.from([1, 60, 3600, 86_400]),
    tempC: [150, 300, 450],
    keptFraction: [
      [1, 1, 1, 0.97],
      [1, 0.97, 0.7, 0.5],
      [0.8, 0.5, null, 0.3],
    ],
  };
  const figure = mapFigure(map, {
    limits: [
      { name: 'shop limit', limitC: 226.7 },
      { name: 'out of sight', limitC: 600 },
    ],
    points: [{ label: 'T7: 8 h at 227 °C', timeS: 28_800, tempC: 227 }],
  });

  it('is plain data on a log time axis with shop and calendar times', () => {
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(figure.layout.xaxis!.type).toBe('log');
    expect(figure.layout.xaxis!.range).toEqual([0, Math.log10(86_400)]);
    expect(figure.layout.xaxis!.ticktext).toEqual([
      '1 s',
      '<br>10 s',
      '1 min',
      '<br>10 min',
      '1 h',
      '8 h',
      '<br>1 d',
    ]);
  });

  it('puts the label of a point at its logarithm and the limit inside the map', () => {
    const texts = figure.layout.annotations!;
    const t7 = texts.find(({ text }) => text === 'T7: 8 h at 227 °C')!;
    expect(10 ** t7.x).toBeCloseTo(28_800, 6);
    expect(texts.some(({ text }) => text.startsWith('out of sight'))).toBe(false);
    expect(figure.data[0]!.z![2]![2]).toBeNull();
  });

  it('needs a grid', () => {
    expect(() => mapFigure({ timeS: [], tempC: [], keptFraction: [] })).toThrow(TemperbookError);
  });
});

describe('profileFigure', () => {
  it('draws bands, measured points, levels and marks', () => {
    const figure = profileFigure(
      [
        {
          name: 'as welded',
          distanceMm: [0, 10, 20],
          nominal: [150, 180, 240],
          low: [130, 160, 230],
          high: [170, 200, 250],
        },
      ],
      {
        quantity: 'Yield, MPa',
        levels: [{ name: 'minimum', value: 200 }],
        marks: [{ name: 'extent of the code', distanceMm: 25 }],
        measured: [{ distanceMm: 5, value: 140 }],
      },
    );
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(figure.layout.title!.text).toBe('Yield');
    expect(figure.data.map(({ fill }) => fill)).toEqual([undefined, 'tonexty', undefined, undefined]);
    const [low, high] = figure.layout.yaxis!.range!;
    expect(low).toBeLessThan(130);
    expect(high).toBeGreaterThan(250);
    expect(figure.layout.shapes!.map(({ x0, y0 }) => [x0, y0])).toEqual([
      [0, 200],
      [25, 0],
    ]);
  });
});

describe('profileFigure of a temperature', () => {
  const figure = profileFigure([{ name: 'tube', distanceMm: [5, 50], nominal: [500, 100] }], {
    quantity: 'Peak temperature, °C',
    levels: [{ name: 'shop rule', value: 440 / 1.8 - 32 / 1.8 }],
  });

  it('has °F on the right at the same heights', () => {
    const { tickvals, ticktext } = figure.layout.yaxis2!;
    expect(figure.layout.yaxis2!.range).toEqual(figure.layout.yaxis!.range);
    for (const [k, text] of ticktext!.entries())
      expect(Number(text)).toBeCloseTo(1.8 * tickvals![k]! + 32, 2);
    expect(figure.data.some(({ yaxis }) => yaxis === 'y2')).toBe(true);
  });

  it('names a level with both', () => {
    expect(figure.layout.annotations!.map(({ text }) => text)).toContain('shop rule 227 °C (440 °F)');
  });
});

describe('heatmapFigure', () => {
  it('keeps the part to scale, names its isotherms and leaves out those it never reached', () => {
    const figure = heatmapFigure(
      {
        alongMm: [0, 50, 100],
        acrossMm: [0, 20],
        peakC: [
          [100, 300, 120],
          [90, 200, null],
        ],
      },
      {
        limits: [
          { name: 'shop limit', limitC: 226.7 },
          { name: 'melting', limitC: 555 },
        ],
        probes: [{ name: 'TC1', alongMm: 50, acrossMm: 10 }],
        weld: [
          [20, 0],
          [80, 0],
        ],
      },
    );
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(figure.layout.yaxis!.scaleanchor).toBe('x');
    expect(figure.data.map(({ type }) => type)).toEqual(['heatmap', 'contour', 'scatter', 'scatter']);
    expect(figure.data[0]!.zmax).toBe(300);
    expect(figure.data[0]!.colorbar!.ticktext).toContain('200 (392)');
    expect(figure.layout.annotations!.map(({ text }) => text)).toContain('line: shop limit, 227 °C (440 °F)');
  });
});

describe('residualFigure', () => {
  it('places each model at its error, with its band, first row on top', () => {
    const figure = residualFigure(
      [
        { label: 'first', measured: 100, models: [{ name: 'curve', nominal: 106, low: 95, high: 112 }] },
        { label: 'second', measured: 200, models: [{ name: 'curve', nominal: 190 }] },
      ],
      { unit: 'MPa' },
    );
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    const [bars, dots] = figure.data;
    expect(bars!.x).toEqual([-5, 12, null, -10, -10, null]);
    expect(dots!.x).toEqual([6, -10]);
    expect(figure.layout.yaxis!.ticktext).toEqual(['first', 'second']);
    expect(figure.layout.yaxis!.range![0]).toBeGreaterThan(figure.layout.yaxis!.range![1]);
    expect(() => residualFigure([], { unit: 'MPa' })).toThrow(TemperbookError);
  });
});
