import { describe, expect, it } from 'vitest';
import plan from '../../../data/demo/mast-foot-plan.json';
import { type PlatePlan, solvePlate } from '../../../lib/heatflow';
import { tempAt } from '../../../lib/history';

describe('the demo plan of the mast foot', () => {
  const result = solvePlate(plan as unknown as PlatePlan, { timeAboveC: [227] });

  it('welds its four passes, each after the interpass limit of the plan', () => {
    expect(result.passes.map(({ name }) => name)).toEqual(['root', 'fill', 'cap', 'repair']);
    for (const [i, { startS, interpassC }] of result.passes.entries()) {
      if (i === 0) continue;
      expect(interpassC).toBeLessThanOrEqual(90);
      expect(tempAt(result.probes[0]!.history, startS)).toBeCloseTo(interpassC!, 6);
      expect(startS - result.passes[i - 1]!.endS).toBeGreaterThanOrEqual(60);
    }
  });

  it('closes its heat account, and brings in what the passes say', () => {
    expect(result.energy.imbalance).toBeLessThan(1e-9);
    const planned = plan.passes.reduce((sum, pass) => {
      const [[x0, y0], [x1, y1]] = pass.path as [[number, number], [number, number]];
      return sum + (pass.netPowerW * Math.hypot(x1 - x0, y1 - y0)) / pass.travelMmPerS;
    }, 0);
    expect(result.energy.arcJ / planned).toBeCloseTo(1, 9);
  });

  it('heats the probes in the order of their distance and melts only along the weld', () => {
    const [near, far, lug] = result.probes.map(({ peakC }) => peakC) as [number, number, number];
    expect(near).toBeGreaterThan(far);
    expect(far).toBeGreaterThan(lug);
    // Half of 680 J/mm into the 3 mm wall melts it no farther than H/(ρc d (Tm − T0) √2πe) = 21 mm, all at once.
    const { columns, cellMm } = result.grid;
    for (const [i, tempC] of result.peakC.entries())
      if (tempC > 557) expect(Math.abs((Math.floor(i / columns) + 0.5) * cellMm - 80)).toBeLessThan(21);
  });
});
