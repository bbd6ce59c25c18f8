import { describe, expect, it } from 'vitest';
import mast from '../../data/demo/mast-foot-plan.json';
import { planFigure, staticSvg } from '../../lib/figure';
import type { PlatePlan } from '../../lib/heatflow';

const demo = mast as unknown as PlatePlan;
const plan: PlatePlan = {
  ...demo,
  part: [
    ...demo.part,
    { name: 'pin hole', shape: { circleMm: [50, 30, 8] }, thicknessMm: 0, metal: 'A356.0' },
  ],
};

describe('the drawing of a plan', () => {
  const figure = planFigure(plan, 'Mast foot');
  const named = (name: string) => figure.data.filter((trace) => trace.name === name);

  it('shows every region with its thickness, every pass in its order, every clamp and every probe', () => {
    const words = (figure.layout.annotations ?? []).map(({ text }) => text);
    expect(words).toEqual(
      expect.arrayContaining(['tube wall, 3 mm', 'hinge block, 25 mm', 'pin hole, hole', 'TC3 hinge lug']),
    );
    for (const [i, { name }] of plan.passes.entries()) expect(named(`${i + 1} ${name}`)).toHaveLength(1);
    expect(named('bench clamp')).toHaveLength(1);
    expect(named('probes')[0]!.x).toEqual(plan.probes.map(({ xMm }) => xMm));
  });

  it('is true to scale and as tall as the part asks', () => {
    expect(figure.layout.yaxis).toMatchObject({ scaleanchor: 'x' });
    const [left, right] = figure.layout.xaxis!.range as [number, number];
    const [low, high] = figure.layout.yaxis!.range as [number, number];
    expect(left).toBeLessThan(0);
    expect(right).toBeGreaterThan(100);
    expect(high - low).toBeGreaterThan(220);
    // On paper a millimetre is as long along x as along y.
    const [, along, across] = /viewBox="0 0 (\S+) (\S+)"/.exec(staticSvg(figure))!.map(Number) as number[];
    const margin = figure.layout.margin!;
    const perX = (along! - margin.l! - margin.r!) / (right - left);
    const perY = (across! - margin.t! - margin.b!) / (high - low);
    expect(perX / perY).toBeCloseTo(1, 1);
  });

  it('draws tacks, second legs and joins', () => {
    const more = planFigure({
      ...plan,
      joins: [
        {
          name: 'seam',
          edgeMm: [
            [0, 80],
            [0, 220],
          ],
          toEdgeMm: [
            [100, 80],
            [100, 220],
          ],
        },
      ],
      passes: [
        { name: 'tack', path: [[20, 80]], arcOnS: 2, netPowerW: 900, sourceRadiusMm: 4 },
        {
          ...plan.passes[0]!,
          beside: {
            path: [
              [5, 90],
              [95, 90],
            ],
            share: 0.5,
          },
        },
      ],
    });
    expect(more.data.filter(({ name }) => name === 'seam')).toHaveLength(2);
    expect(more.data.find(({ name }) => name === '1 tack')).toMatchObject({
      mode: 'markers',
      x: [20],
      y: [80],
    });
    expect(more.data.filter(({ name }) => name === '2 root')).toHaveLength(2);
  });

  it('can be printed', () => {
    const svg = staticSvg(figure);
    expect(svg).toContain('hinge block, 25 mm');
    expect(svg).not.toMatch(/NaN|undefined/);
  });
});
