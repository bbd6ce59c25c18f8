import { describe, expect, it } from 'vitest';
import {
  type Figure,
  figureInUsUnits,
  heatmapFigure,
  planFigure,
  spikeFigure,
  trendFigure,
} from '../../lib/figure';
import { celsiusToFahrenheit } from '../../lib/quantity';
import { edgeWeld } from '../planning/plans/edgeWeld';

const heatmap = heatmapFigure(
  {
    alongMm: [0, 25.4, 50.8],
    acrossMm: [0, 25.4],
    peakC: [
      [100, 300, 120],
      [90, 200, null],
    ],
  },
  { title: 'Hottest, seen from above, in mm', limits: [{ name: 'rule', limitC: 200 }] },
);

describe('a figure in US units', () => {
  it('has colours, isotherms and the numbers beside them in °F, and lengths in inches', () => {
    const us = figureInUsUnits(heatmap);
    const [field, line] = us.data;
    expect(field!.z).toEqual([
      [212, 572, 248],
      [194, 392, null],
    ]);
    expect([field!.zmin, field!.zmax]).toEqual([194, 572]);
    expect(line!.contours).toMatchObject({ start: 392, end: 392 });
    expect(field!.x).toEqual([0, 1, 2]);
    const { title, tickvals, ticktext } = field!.colorbar!;
    expect(title!.text).toBe('°F (°C)');
    tickvals!.forEach((f, i) => {
      const [, shownF, shownC] = /^(\d+) \((\d+)\)$/.exec(ticktext![i]!)!;
      expect(Number(shownF)).toBe(f);
      expect(Math.abs(celsiusToFahrenheit(Number(shownC)) - f)).toBeLessThanOrEqual(0.9);
    });
    expect(us.layout.title!.text).toBe('Hottest, seen from above, in inches');
    expect(us.layout.xaxis!.title!.text).toBe('Along the weld, in');
    expect(field!.hovertemplate).toContain('%{z:.0f} °F at %{x:.1f}, %{y:.1f} in');
  });

  it('is drawn to the same scale along and across', () => {
    const ratio = ({ layout }: Figure): number => {
      const [width, height] = [layout.xaxis!, layout.yaxis!].map(({ range }) => range![1] - range![0]);
      return width! / height!;
    };
    const plan = planFigure(edgeWeld('A356.0'));
    const us = figureInUsUnits(plan);
    expect(ratio(us)).toBeCloseTo(ratio(plan), 10);
    expect(us.layout.xaxis!.range![1]).toBeCloseTo(plan.layout.xaxis!.range![1] / 25.4, 10);
    expect(us.layout.annotations!.some(({ text }) => text === 'y, in')).toBe(true);
  });

  it('has °F on the left of peaks that have both scales, and leaves their places', () => {
    const weld = { weld: 1, value: 200, verdict: 'kept', label: 'HB-1' } as const;
    const metric = trendFigure([{ name: 'casting', points: [weld] }], {
      title: 'Peaks',
      quantity: 'Peak, °C',
      ticks: [],
    });
    const us = figureInUsUnits(metric);
    const headings = us.layout.annotations!.filter(({ yref }) => yref === 'y domain').map(({ text }) => text);
    expect(headings).toEqual(['Peak, °F', '°C']);
    expect(us.layout.yaxis!.ticktext).toEqual(metric.layout.yaxis2!.ticktext);
    expect([us.layout.yaxis!.range, us.layout.yaxis2!.range]).toEqual([
      metric.layout.yaxis!.range,
      metric.layout.yaxis!.range,
    ]);
    expect(us.data.flatMap(({ y }) => y!)).toEqual(metric.data.flatMap(({ y }) => y!));
  });

  it('turns an axis of peaks, and one of differences without its zero', () => {
    const word = {
      coolingTimeConstantS: 60,
      passes: 1,
      chanceKept: 1,
      word: 'kept',
      curve: 'kept',
      delayed: 'kept',
    } as const;
    const peaks = spikeFigure(
      [
        { ...word, peakC: 200, doubts: [] },
        { ...word, peakC: 300, doubts: [] },
      ],
      'Words',
    );
    const us = figureInUsUnits(peaks);
    expect(us.data.flatMap(({ y }) => y!)).toEqual([392, 572]);
    expect(us.layout.annotations!.map(({ text }) => text)).toContain('Peak, °F');

    const note = {
      x: 0,
      xref: 'paper',
      xanchor: 'left',
      yanchor: 'top',
      showarrow: false,
      yref: 'y3 domain',
      y: 1,
      text: 'Reading less model, °C',
    } as const;
    const misfit = {
      data: [{ type: 'scatter', x: [0, 1], y: [10, -5], yaxis: 'y3' }],
      layout: { yaxis3: { range: [-10, 10] }, annotations: [note] },
    } as const;
    const off = figureInUsUnits(misfit);
    expect(off.data[0]!.y).toEqual([18, -9]);
    expect(off.layout.yaxis3!.range).toEqual([-18, 18]);
    expect(off.layout.annotations![0]!.text).toBe('Reading less model, °F');
  });

  it('names in °F what stands under the pointer', () => {
    const trace = { type: 'scatter', x: [0], y: [100], hovertemplate: 'TC1, model<br>%{y:.0f} °C' } as const;
    const [hovered] = figureInUsUnits({ data: [trace], layout: {} }).data;
    expect(hovered).toMatchObject({
      hovertemplate: 'TC1, model<br>%{customdata} °F (%{y:.0f} °C)',
      customdata: ['212'],
    });
  });
});
