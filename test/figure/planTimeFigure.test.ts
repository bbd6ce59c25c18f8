import { describe, expect, it } from 'vitest';
import { planTimeFigure, staticSvg } from '../../lib/figure';
import type { PlanComparison } from '../../lib/planning';

const band = (nominal: number, low: number, high: number) => ({ nominal, low, high, unit: '1', because: [] });
const plan = (name: string, minutes: number, kept: number, verdict: string) => ({
  name,
  clockTimeS: band(60 * minutes, 57 * minutes, 66 * minutes),
  metals: [
    { alloy: 'A356.0', temper: 'T6', verdict, yieldKeptFraction: band(kept, kept - 0.2, kept + 0.1) },
    { alloy: '6061', temper: 'T6', verdict: 'lost', yieldKeptFraction: band(0.5, 0.4, 0.6) },
  ],
});
const compared = {
  plans: [
    plan('as drawn', 15, 0.88, 'uncertain'),
    plan('skip order', 16, 0.881, 'uncertain'),
    plan('wait to 50 °C <cold>', 40, 0.97, 'kept'),
  ],
} as unknown as Pick<PlanComparison, 'plans'>;

describe('strength against the time a plan takes', () => {
  const figure = planTimeFigure(compared);
  const labels = (figure.layout.annotations ?? []).filter(({ xref }) => xref === 'x');

  it('marks every plan where its time and strength are, with both its bands, the verdict by shape', () => {
    const marks = figure.data.filter(({ mode }) => mode === 'markers');
    expect(marks.map(({ x, y }) => [x![0], y![0]])).toEqual([
      [15, 88],
      [16, 88.1],
      [40, 97],
    ]);
    expect(marks.map(({ marker }) => marker!.symbol)).toEqual(['diamond-open', 'diamond-open', 'circle']);
    const [bars] = figure.data.filter(({ mode }) => mode === 'lines');
    expect(bars!.y!.slice(0, 2).map((y) => Math.round(y!))).toEqual([68, 98]);
    expect(bars!.x!.slice(3)).toEqual([14.25, 16.5]);
    const [low, high] = figure.layout.yaxis!.range!;
    expect(low).toBeLessThan(67);
    expect(high).toBeGreaterThan(107);
  });

  it('names each beside its mark, no two names on one another', () => {
    expect(labels.map(({ text }) => text)).toEqual(['as drawn', 'skip order', 'wait to 50 °C &lt;cold&gt;']);
    const [low, high] = figure.layout.yaxis!.range!;
    const px = labels.map(({ y, ay }) => (-y * 260) / (high - low) + ay!);
    for (const [i, at] of px.entries())
      for (const other of px.slice(i + 1)) expect(Math.abs(at - other)).toBeGreaterThan(14);
    expect(labels.map(({ xanchor }) => xanchor)).toEqual(['left', 'left', 'right']);
  });

  it('shows one metal at a time, refuses one that was not compared, and can be printed', () => {
    expect(planTimeFigure(compared, '6061').layout.title!.text).toMatch(/6061-T6/);
    expect(() => planTimeFigure(compared, '6082')).toThrow(/not compared.*"6082".*"A356.0", "6061"/);
    expect(() => planTimeFigure({ plans: [] })).toThrow(/plan/);
    expect(staticSvg(figure)).not.toMatch(/NaN|undefined/);
  });
});
