import { describe, expect, it } from 'vitest';
import {
  type Figure,
  heatmapFigure,
  mapFigure,
  residualFigure,
  staticSvg,
  traceFigure,
  verdictFigure,
} from '../../lib/figure';
import { thermalHistory } from '../../lib/history';
import { TemperbookError } from '../../lib/quantity';
import { sampleLog, sampleVerdict, twelveChannels } from './samples';

/** Every number in the coordinates of the paths of one colour. */
function pathsOf(svg: string, color: string): [number, number][][] {
  return [...svg.matchAll(new RegExp(`<path d="([^"]*)"[^>]*stroke="${color}"`, 'g'))].map(([, d]) =>
    [...d!.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map(
      ([, x, y]) => [Number(x), Number(y)] as [number, number],
    ),
  );
}

describe('staticSvg', () => {
  const log = sampleLog();
  const figure = verdictFigure(log, sampleVerdict(log));

  it('is one self-contained picture, the same every time', () => {
    const svg = staticSvg(figure);
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" /);
    expect(svg).not.toMatch(/href|url\((?!#)|<script|<style|@import/);
    expect(svg).not.toContain('NaN');
    expect(staticSvg(figure)).toBe(svg);
  });

  it('puts a line where its scale says, to a tenth of a pixel', () => {
    const line: Figure = {
      data: [{ type: 'scatter', mode: 'lines', x: [0, 5, 10], y: [0, 100, 50], line: { color: '#123456' } }],
      layout: {
        margin: { l: 50, r: 50, t: 20, b: 30 },
        height: 250,
        xaxis: { range: [0, 10] },
        yaxis: { range: [0, 100] },
      },
    };
    expect(pathsOf(staticSvg(line, { widthPx: 300 }), '#123456')).toEqual([
      [
        [50, 220],
        [150, 20],
        [250, 120],
      ],
    ]);
  });

  it('places values on a log axis by their logarithm', () => {
    const line: Figure = {
      data: [
        { type: 'scatter', mode: 'lines', x: [1, 10, 1000], y: [0, 0.5, 0], line: { color: '#123456' } },
      ],
      layout: {
        margin: { l: 50, r: 50, t: 20, b: 30 },
        height: 250,
        xaxis: { type: 'log', range: [0, 3], tickvals: [1, 10], ticktext: ['1 s', '10 s'] },
        yaxis: { range: [-1, 1] },
      },
    };
    const svg = staticSvg(line, { widthPx: 350 });
    expect(pathsOf(svg, '#123456')[0]!.map(([x]) => x)).toEqual([50, 133.3, 300]);
    expect(svg).toContain('>10 s</text>');
  });

  it('lifts the pen at a missing point', () => {
    const svg = staticSvg({
      data: [
        {
          type: 'scatter',
          mode: 'lines',
          x: [0, 1, null, 2, 3],
          y: [0, 1, null, 1, 0],
          line: { color: '#123456' },
        },
      ],
      layout: { xaxis: {}, yaxis: {} },
    });
    expect(/<path d="(M[^"]*)"[^>]*#123456/.exec(svg)![1]!.match(/M/g)).toHaveLength(2);
  });

  it('draws the level of a contour where linear interpolation has it', () => {
    // z rises from 0 to 10 along x: the level 5 is the straight line halfway.
    const svg = staticSvg({
      data: [
        {
          type: 'contour',
          x: [0, 10],
          y: [0, 1, 2],
          z: [
            [0, 10],
            [0, 10],
            [0, 10],
          ],
          contours: { start: 5, end: 5, size: 1, coloring: 'none' },
          line: { color: '#123456' },
        },
      ],
      layout: {
        margin: { l: 50, r: 50, t: 20, b: 30 },
        height: 250,
        xaxis: { range: [0, 10] },
        yaxis: { range: [0, 2] },
      },
    });
    const [run, ...others] = pathsOf(svg, '#123456');
    expect(others).toEqual([]);
    for (const [x] of run!) expect(x).toBeCloseTo(380, 5);
    const ys = run!.map(([, y]) => y);
    expect([Math.min(...ys), Math.max(...ys)]).toEqual([20, 220]);
  });

  it('shows every text of the figure: labels, limits, ticks in °C and °F, legend', () => {
    const svg = staticSvg(figure);
    for (const text of [
      'TC1 319 °C',
      'shop limit',
      '227 °C (440 °F)',
      '>300</text>',
      '>600</text>',
      'Time, min',
    ])
      expect(svg).toContain(text);
    const legend = staticSvg(traceFigure(twelveChannels()));
    for (let i = 1; i <= 12; i++) expect(legend).toMatch(new RegExp(`>TC${i}, \\d+ °C</text>`));
  });

  it('escapes what comes from a file, in texts and attributes', () => {
    const name = `"><script>x()</script>&'\u0007`;
    const svg = staticSvg(
      traceFigure([{ name, history: thermalHistory([0, 60], [20, 90]) }], { title: name }),
    );
    expect(svg).not.toContain('<script');
    expect(svg).not.toContain('\u0007');
    expect(svg).toContain('aria-label="&quot;&gt;&lt;script&gt;x()&lt;/script&gt;&amp;&#39;"');
  });

  it('stays inside its size on a phone and refuses a size without room', () => {
    const svg = staticSvg(figure, { widthPx: 358 });
    expect(svg).toContain('viewBox="0 0 358 ');
    for (const [, x] of svg.matchAll(/<circle cx="([\d.]+)"/g)) expect(Number(x)).toBeLessThanOrEqual(358);
    expect(() => staticSvg(figure, { widthPx: 100 })).toThrow(TemperbookError);
    expect(() => staticSvg(figure, { id: 'a b' })).toThrow(TemperbookError);
  });

  it('draws the other kinds of figure with their labels', () => {
    const map = staticSvg(
      mapFigure({
        timeS: [1, 100, 10_000],
        tempC: [150, 300, 450],
        keptFraction: [
          [1, 1, 0.9],
          [1, 0.8, 0.5],
          [0.7, 0.4, 0.3],
        ],
      }),
    );
    for (const text of ['>90 %</text>', '>50 %</text>', '>1 min</text>', '>500</text>', '>°F</text>'])
      expect(map).toContain(text);
    const plan = staticSvg(
      heatmapFigure(
        {
          alongMm: [0, 50, 100],
          acrossMm: [0, 20],
          peakC: [
            [100, 300, 120],
            [90, 200, null],
          ],
        },
        { probes: [{ name: 'TC1', alongMm: 50, acrossMm: 10 }] },
      ),
    );
    for (const text of ['>TC1</text>', '>250 (482)</text>', '>Along the weld, mm</text>'])
      expect(plan).toContain(text);
    const residual = staticSvg(
      residualFigure([{ label: 'T6 to T7', measured: 100, models: [{ name: 'curve', nominal: 106 }] }], {
        unit: 'MPa',
      }),
    );
    for (const text of ['>T6 to T7</text>', '>curve</text>', '>model less measured, MPa</text>'])
      expect(residual).toContain(text);
    for (const svg of [map, plan, residual]) expect(svg).not.toMatch(/NaN|undefined/);
  });

  it('keeps a plan view to scale whatever the width', () => {
    const figure = heatmapFigure({
      alongMm: [0, 100],
      acrossMm: [0, 50],
      peakC: [
        [100, 300],
        [90, 200],
      ],
    });
    const { l, r, t, b } = figure.layout.margin!;
    const height = Number(/viewBox="0 0 400 ([\d.]+)"/.exec(staticSvg(figure, { widthPx: 400 }))![1]);
    expect(height - t - b).toBeCloseTo((400 - l - r) / 2, 6);
  });
});
