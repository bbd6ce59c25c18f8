import { describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
import { acrossDraws, boundBlind, peak, pointsExposure } from '../../../lib/exposure';

const POINTS = { timeS: [0, 600, 1200, 3600], tempC: [20, 150, 180, 60] };

describe('points that were written down', () => {
  it('off a paper chart are a curve, good to half a division', () => {
    const chart = pointsExposure({ ...POINTS, toK: 5, between: 'the curve' });
    const tops = acrossDraws(chart, (h) => peak(h).tempC);
    expect(Math.max(...tops)).toBeCloseTo(185, 0);
    expect(Math.min(...tops)).toBeCloseTo(175, 0);
    expect(judge(chart, { alloy: '6061-T6' }).verdict).toBe('kept');
  });

  it('between passes leave the passes open: nothing is cleared, until a stick that did not melt bounds them', () => {
    const readings = pointsExposure({ ...POINTS, toK: 5, between: 'not known' });
    expect(judge(readings, { alloy: '6061-T6' })).toMatchObject({ verdict: 'uncertain', chanceKept: null });
    const bounded = boundBlind(readings, 190);
    expect(bounded.blind).toEqual([]);
    expect(Math.max(...acrossDraws(bounded, (h) => peak(h).tempC))).toBeGreaterThan(185);
    expect(judge(bounded, { alloy: '6061-T6' }).verdict).toBe('kept');
    expect(judge(boundBlind(readings, 300), { alloy: '6061-T6' }).verdict).not.toBe('kept');
  });

  it('a higher stick never makes the answer kinder', () => {
    const readings = pointsExposure({ ...POINTS, toK: 5, between: 'not known' });
    const chances = [200, 240, 280, 320].map(
      (limitC) => judge(boundBlind(readings, limitC), { alloy: 'A356-T6' }).chanceKept!,
    );
    for (let i = 1; i < chances.length; i++) expect(chances[i]!).toBeLessThanOrEqual(chances[i - 1]! + 0.02);
  });

  it('refuses what makes no curve', () => {
    expect(() => pointsExposure({ timeS: [0], tempC: [20], toK: 5, between: 'the curve' })).toThrow(
      /no curve/,
    );
    expect(() => pointsExposure({ ...POINTS, toK: Number.NaN, between: 'the curve' })).toThrow(
      /How far a written point/,
    );
  });
});
