import { describe, expect, it } from 'vitest';
import { furnaceChartFigure, staticSvg } from '../../lib/figure';
import { checkChart } from '../../lib/heattreat';
import { soundLog } from '../heattreat/invent';

describe('furnaceChartFigure', () => {
  const check = checkChart(soundLog(undefined, { toH: 43 }), 'A356.0 T6 sand casting');
  const figure = furnaceChartFigure(check);
  const texts = figure.layout.annotations!.map(({ text }) => text);

  it('is plain data', () => expect(JSON.parse(JSON.stringify(figure))).toEqual(figure));

  it('shades the band of each stage of the chart, between its own times', () => {
    const bands = figure.layout.shapes!.filter(({ type }) => type === 'rect');
    expect(bands.map(({ y0, y1 }) => [y0, y1])).toEqual([
      [532, 544],
      [148, 160],
    ]);
    expect(bands[1]!.x1).toBeCloseTo(43, 5);
  });

  it('names the stages that have room on a phone, those first that a sensor did worst in', () => {
    expect(texts).toContain('solution treatment<br>worst: Load 2');
    expect(texts.some((text) => /^ageing<br>worst: /.test(text))).toBe(true);
  });

  it('lists every requirement with its answer and marks its moment', () => {
    const list = texts.map((text) => text.replaceAll('<br>', ' '));
    for (const [k, { name }] of check.requirements.entries())
      expect(list.some((text) => new RegExp(`^[✓✗?] ${k + 1}  ${name}`).test(text))).toBe(true);
    expect(list.some((text) => text.includes('cannot tell: the chart ends within this stage'))).toBe(true);
    const moments = figure.layout.shapes!.filter(({ type, yref }) => type === 'line' && yref === 'y domain');
    expect(moments.length).toBeGreaterThanOrEqual(3);
  });

  it('has a still picture', () => {
    const svg = staticSvg(figure);
    expect(svg).toContain('Solution: time in the band');
    expect(svg).not.toContain('NaN');
  });
});
